import { z } from 'zod';
import { later } from '../later.ts';
import { personId, recordId } from './ids.ts';
import { instant, label, minutes, typeName } from './members.ts';

/** The whole corrected data, and the time and person where those were wrong. `type` and `version` are the original's. */
export const recordAmended = later(() =>
  z.strictObject({
    recordId,
    type: typeName,
    version: z.number().int().min(1),
    /** Valid for `type` and `version`: checked where the record is parsed. */
    data: z.record(z.string(), z.unknown()),
    occurredAt: instant.optional(),
    plusMinusMinutes: minutes.optional(),
    performedBy: personId.optional(),
    reason: label,
  }),
);
export const recordStruck = later(() => z.strictObject({ recordId, type: typeName, reason: label }));
