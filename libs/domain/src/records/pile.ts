import { z } from 'zod';
import { later } from '../later.ts';
import { lotId, materialId, pileId } from './ids.ts';
import { date, label, words } from './members.ts';
import { stock, temperature } from './quantitySchema.ts';

export const pileStarted = later(() =>
  z.strictObject({
    pileId,
    code: label,
    method: z.enum(['windrow', 'staticAerated', 'inVessel', 'vermicompost', 'passive']),
    inputs: z.array(z.strictObject({ lotId, quantity: stock() })),
    /** 29 means 29:1. */
    carbonToNitrogen: z.number().positive('must be above 0: write 29 for 29:1').optional(),
  }),
);
export const pileAdded = later(() => z.strictObject({ pileId, lotId, quantity: stock() }));
export const pileMeasured = later(() =>
  z.strictObject({
    pileId,
    temperatures: z
      .array(z.strictObject({ spot: words.optional(), value: temperature() }))
      .min(1, 'must hold at least one temperature'),
  }),
);
export const pileTurned = later(() => z.strictObject({ pileId }));
/** The pile becomes a lot of its own. */
export const pileFinished = later(() =>
  z.strictObject({
    pileId,
    lotId,
    code: label,
    materialId,
    quantity: stock(),
    curedFrom: date.optional(),
  }),
);
