/**
 * Program text that the build has packed into a data block of the page: deflated, then written in base64.
 *
 * @param id - of the script element that holds it
 * @returns the text
 *
 * Source: RFC 1950 (zlib), RFC 4648 (base64); Compression Streams standard.
 */
export async function unpack(id: string): Promise<string> {
  const packed = document.getElementById(id)!.textContent!;
  const bytes = Uint8Array.from(atob(packed), (character) => character.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
  return new Response(stream).text();
}
