import { z } from 'zod';
import { lotId, materialId, pileId } from './ids.ts';
import { date, label, words } from './members.ts';
import { stock, temperature } from './quantitySchema.ts';

export const pileStarted = z.strictObject({
  pileId,
  code: label,
  method: z.enum(['windrow', 'staticAerated', 'inVessel', 'vermicompost', 'passive']),
  inputs: z.array(z.strictObject({ lotId, quantity: stock })),
  /** 29 means 29:1. */
  carbonToNitrogen: z.number().positive('must be above 0: write 29 for 29:1').optional(),
});
export const pileAdded = z.strictObject({ pileId, lotId, quantity: stock });
export const pileMeasured = z.strictObject({
  pileId,
  temperatures: z
    .array(z.strictObject({ spot: words.optional(), value: temperature }))
    .min(1, 'must hold at least one temperature'),
});
export const pileTurned = z.strictObject({ pileId });
/** The pile becomes a lot of its own. */
export const pileFinished = z.strictObject({
  pileId,
  lotId,
  code: label,
  materialId,
  quantity: stock,
  curedFrom: date.optional(),
});
