import { z } from 'zod';
import { later } from '../later.ts';
import { anyId, operationId, personId, recordId } from './ids.ts';
import { count, instant, minutes } from './members.ts';

/** The members of a record that its writer sets. */
export const envelope = later(() =>
  z.strictObject({
    id: recordId,
    type: z.string(),
    version: z.number().int().min(1),
    occurredAt: instant,
    plusMinusMinutes: minutes.optional(),
    enteredAt: instant.optional(),
    performedBy: personId.optional(),
    origin: z.enum(['observed', 'fromMemory', 'fromPaper', 'instrument']).optional(),
    data: z.record(z.string(), z.unknown()),
  }),
);

/** The same and the log's own facts: an entry of the log. */
export const entryEnvelope = later(() =>
  z.strictObject({
    ...envelope().shape,
    operationId,
    seq: count,
    recordedAt: instant,
    /** An account id, never a name. */
    recordedBy: anyId,
  }),
);

/** The members of a record that its writer sets, as they are sent. */
export type ClientMembers = Readonly<z.output<ReturnType<typeof envelope>>>;

/** Names of the members that the writer sets. */
const client = later(() => new Set(Object.keys(envelope().shape)));
/** Names of the members that the log adds. */
export const serverMembers = later(
  () => new Set(Object.keys(entryEnvelope().shape).filter((name) => !client().has(name))),
);

/** Exactly the members of an entry (or draft) that its writer set: what "same content" compares. */
export function clientMembers(entry: object): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(entry).filter(([name, value]) => client().has(name) && value !== undefined));
}
