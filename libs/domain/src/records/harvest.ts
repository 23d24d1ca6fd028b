import { z } from 'zod';
import { later } from '../later.ts';
import { fieldId, harvestId, plantingId } from './ids.ts';
import { instant, label, words } from './members.ts';
import { stock } from './quantitySchema.ts';

export const harvestMade = later(() =>
  z.strictObject({
    harvestId,
    code: label,
    fieldId,
    plantingId: plantingId.optional(),
    quantity: stock(),
    soldAs: z.enum(['organic', 'transition', 'conventional', 'ownUse']),
    finishedAt: instant.optional(),
  }),
);
export const harvestShipped = later(() =>
  z.strictObject({ harvestId, quantity: stock(), to: label, reference: words }),
);
