import { concatBytes } from './bytes.ts';

/**
 * The lines of a stream, without their line feeds (NDJSON: one entry's bytes a line; canonical JSON never holds a line
 * feed). A last line without a line feed is given too. A line longer than `longest` bytes is cut there and the rest
 * passed over: it cannot be an entry, and is not to exhaust the memory.
 */
export async function* linesOf(
  chunks: Iterable<Uint8Array> | AsyncIterable<Uint8Array>,
  longest = 1 << 20,
): AsyncGenerator<Uint8Array> {
  let parts: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of chunks) {
    let start = 0;
    for (let end = chunk.indexOf(0x0a); end >= 0; end = chunk.indexOf(0x0a, start)) {
      const piece = chunk.subarray(start, end);
      yield parts.length === 0 ? piece : concatBytes(...parts, piece);
      parts = [];
      length = 0;
      start = end + 1;
    }
    const rest = chunk.subarray(start, start + Math.max(0, longest - length));
    if (rest.length > 0) parts.push(rest);
    length += rest.length;
  }
  if (parts.length > 0) yield concatBytes(...parts);
}
