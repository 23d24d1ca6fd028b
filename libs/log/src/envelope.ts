import { bad, good } from './checked.ts';
import type { Checked } from './checked.ts';

/**
 * The log's own facts, held inside every entry, so that a renumbered, transplanted or backdated entry shows by itself.
 * Everything else in an entry is the business of others.
 */
export interface Envelope {
  /** Which log. */
  readonly operationId: string;
  /** The entry's index in the log, from 0. */
  readonly seq: number;
  /** When the log took the entry, in milliseconds since 1970. */
  readonly recordedAt: number;
  /** When the thing happened, by the entry's own word. */
  readonly occurredAt: number;
  readonly type: string;
  /** The verifier key line that this entry names as the log's key from here on. */
  readonly nextKey: string | null;
}

/** The origin line of an operation's checkpoints, and the name of its key. */
export const originOf = (operationId: string): string => `furrowmark/${operationId}`;

const keyTypes = new Set(['key.replaced', 'log.restored', 'import.made']);
const instant = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?(Z|[+-]\d{2}:\d{2})$/;

/** Reads the log's own facts from an entry's value. */
export function readEnvelope(value: unknown): Checked<Envelope> {
  const operationId = memberOf(value, 'operationId');
  const seq = memberOf(value, 'seq');
  const type = memberOf(value, 'type');
  const recordedAt = instantOf(memberOf(value, 'recordedAt'));
  const occurredAt = instantOf(memberOf(value, 'occurredAt'));
  if (typeof operationId !== 'string') return bad('it does not name its log (operationId)');
  if (typeof seq !== 'number' || !Number.isSafeInteger(seq) || seq < 0) return bad('it has no number of its own (seq)');
  if (typeof type !== 'string') return bad('it has no type');
  if (recordedAt === null) return bad('it does not say when it was recorded (recordedAt)');
  if (occurredAt === null) return bad('it does not say when it happened (occurredAt)');
  const key = keyTypes.has(type) ? memberOf(memberOf(value, 'data'), 'key') : undefined;
  return good({ operationId, seq, type, recordedAt, occurredAt, nextKey: typeof key === 'string' ? key : null });
}

/** A member of a JSON object, or undefined. */
export function memberOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, name)
    ? Reflect.get(value, name)
    : undefined;
}

function instantOf(value: unknown): number | null {
  const time = typeof value === 'string' && instant.test(value) ? Date.parse(value) : NaN;
  return Number.isNaN(time) ? null : time;
}
