import { ask, type Answer } from '../http/ask.ts';
import { memberOf } from '../http/read.ts';
import { session } from '../session/session.ts';

export type Trouble = Exclude<Answer, { kind: 'ok' }>;

const page = 1000;

/** Reading by the clock is the device's own doing: it does not keep anybody signed in who walked away. */
export const asDevice = (path: string): Promise<Answer> => ask(path, { as: session.get()?.token });

/** A page of the log from a `seq` on. */
export const pathOf = (operationId: string, from: number): string =>
  `/operations/${operationId}/records?limit=${String(page)}${from === 0 ? '' : `&after=${String(from - 1)}`}`;

/** An entry as the service gave it. */
export interface Entry {
  readonly id: string;
  readonly seq: number;
  readonly entry: unknown;
}

/** What a page of the log, or a kit, holds. */
export function pageIn(body: unknown): { entries: readonly Entry[]; more: boolean; asOfSeq: number } {
  const records = memberOf(body, 'records');
  const entries = (Array.isArray(records) ? records : []).flatMap((entry: unknown) => {
    const [id, seq] = [memberOf(entry, 'id'), memberOf(entry, 'seq')];
    return typeof id === 'string' && typeof seq === 'number' ? [{ id, seq, entry }] : [];
  });
  const asOfSeq = memberOf(body, 'asOfSeq');
  return {
    entries,
    more: entries.length > 0 && typeof memberOf(body, 'next') === 'string',
    asOfSeq: typeof asOfSeq === 'number' ? asOfSeq : (entries.at(-1)?.seq ?? Infinity),
  };
}
