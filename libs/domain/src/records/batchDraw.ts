import { z } from 'zod';
import { later } from '../later.ts';
import { anyId, batchId, drawId } from './ids.ts';
import { label, words } from './members.ts';
import { volume } from './quantitySchema.ts';

export const batchDrawn = later(() =>
  z.strictObject({
    drawId,
    batchId,
    volume: volume(),
    /** A vessel or a piece of equipment. */
    into: anyId.optional(),
    /** Air ran while it was carried. */
    keptAerated: z.boolean().optional(),
  }),
);
/** What became of the rest of a draw. */
export const drawEnded = later(() =>
  z.strictObject({
    drawId,
    volume: volume(),
    fate: z.enum(['dumped', 'putBack', 'carriedOver']),
    intoBatchId: batchId.optional(),
    where: words.optional(),
  }),
);
export const batchLost = later(() =>
  z.strictObject({
    batchId,
    volume: volume(),
    cause: z.enum(['foam', 'leak', 'spill']),
    estimated: z.boolean().optional(),
  }),
);
export const batchDisposed = later(() =>
  z.strictObject({
    batchId,
    volume: volume(),
    reason: label,
    where: words,
    estimated: z.boolean().optional(),
  }),
);
