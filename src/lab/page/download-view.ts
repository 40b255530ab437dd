import { button, element } from "./element.ts";
import { Voided, type WorkerClient } from "./worker-client.ts";

/**
 * A button that runs the scenario as it is written and saves readings.csv.
 *
 * @param client - asks the engine
 * @param seed - the seed that is set when it is pressed
 */
export function downloadView(client: WorkerClient, seed: () => string): HTMLElement {
  const state = element("span", { class: "hint", role: "status" });
  async function save(): Promise<void> {
    state.textContent = "Simulating …";
    try {
      const { csv, readings } = await client.ask(
        "download",
        { seed: seed() },
        "download",
        (share) => {
          state.textContent = `Simulating … ${Math.floor(100 * share)} %`;
        },
      );
      const url = URL.createObjectURL(csv);
      element("a", { href: url, download: "readings.csv" }).click();
      URL.revokeObjectURL(url);
      state.textContent = `readings.csv with ${readings} readings, byte for byte what “tickwright run” writes for this scenario and seed.`;
    } catch (error) {
      if (error instanceof Voided) return;
      state.textContent = `The run failed: ${(error as Error).message}`;
    }
  }
  return element(
    "div",
    { class: "download" },
    button("Download readings", () => void save()),
    " ",
    state,
  );
}
