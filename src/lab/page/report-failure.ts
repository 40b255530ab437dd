/**
 * Says on the page that it cannot start.
 *
 * @param error - why
 */
export function reportFailure(error: Error): void {
  document.querySelector("main")!.textContent =
    `This page could not start (${error.message}). It needs a browser of 2023 or later.`;
}
