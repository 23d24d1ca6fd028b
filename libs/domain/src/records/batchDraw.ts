import { z } from 'zod';
import { anyId, batchId, drawId } from './ids.ts';
import { label, words } from './members.ts';
import { volume } from './quantitySchema.ts';

export const batchDrawn = z.strictObject({
  drawId,
  batchId,
  volume,
  /** A vessel or a piece of equipment. */
  into: anyId.optional(),
  /** Air ran while it was carried. */
  keptAerated: z.boolean().optional(),
});
/** What became of the rest of a draw. */
export const drawEnded = z.strictObject({
  drawId,
  volume,
  fate: z.enum(['dumped', 'putBack', 'carriedOver']),
  intoBatchId: batchId.optional(),
  where: words.optional(),
});
export const batchLost = z.strictObject({
  batchId,
  volume,
  cause: z.enum(['foam', 'leak', 'spill']),
  estimated: z.boolean().optional(),
});
export const batchDisposed = z.strictObject({
  batchId,
  volume,
  reason: label,
  where: words,
  estimated: z.boolean().optional(),
});
