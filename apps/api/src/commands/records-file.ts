import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';

/** A line of a records file: its number, and what it says; `wrong` where it is no JSON. */
export type Line =
  { readonly number: number; readonly record: unknown } | { readonly number: number; readonly wrong: string };

/** Most of one request: the service takes 1 MiB and 1,000 records. */
const MOST_BYTES = 900_000;
const MOST_RECORDS = 500;

/** Reads a file with one record a line, in portions that fit into one request. Empty lines are skipped. */
export async function* portions(file: string): AsyncGenerator<readonly Line[]> {
  let portion: Line[] = [];
  let bytes = 0;
  let number = 0;
  for await (const text of createInterface({ input: createReadStream(file, 'utf8'), crlfDelay: Infinity })) {
    number += 1;
    const said = number === 1 ? text.replace(/^\uFEFF/, '') : text;
    if (said.trim() === '') continue;
    const size = Buffer.byteLength(said);
    if (portion.length === MOST_RECORDS || (portion.length > 0 && bytes + size > MOST_BYTES)) {
      yield portion;
      portion = [];
      bytes = 0;
    }
    portion.push(size > MOST_BYTES ? { number, wrong: 'is longer than a record may be (60 kB)' } : read(number, said));
    bytes += Math.min(size, MOST_BYTES);
  }
  if (portion.length > 0) yield portion;
}

function read(number: number, text: string): Line {
  try {
    const record: unknown = JSON.parse(text);
    return { number, record };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { number, wrong: `is not JSON (${why}): a line holds one record, from its { to its }` };
  }
}
