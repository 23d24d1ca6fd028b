import { readFileSync } from 'node:fs';

type Json = Readonly<Record<string, unknown>>;

/** An example record as JSON text gives it. For tests only. */
export interface Example {
  readonly id: string;
  readonly type: string;
  readonly version: number;
  readonly occurredAt: string;
  readonly data: Json;
}

const lines = (name: string): Example[] =>
  readFileSync(new URL(name, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as Example); // eslint-disable-line @typescript-eslint/consistent-type-assertions -- the corpus is ours; its test checks every line

/** Drafts of every version ever released, as clients sent them. */
export const drafts: readonly Example[] = lines('v1.ndjson');
/** Log entries of what clients never send: the server's own types, and people under seal. */
export const entries: readonly Example[] = lines('v1.entries.ndjson');

/** The first example of a type, with members of its data replaced, or left out where undefined. */
export function example(type: string, changes: Json = {}): Example {
  const found = drafts.find((draft) => draft.type === type);
  if (found === undefined) throw new Error(`the corpus has no ${type}`);
  return { ...found, data: without({ ...found.data, ...changes }) };
}

/** The same without the members that are undefined, as JSON would have it. */
export const without = (members: Json): Json =>
  Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined));
