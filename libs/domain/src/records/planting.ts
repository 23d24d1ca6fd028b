import { z } from 'zod';
import { fieldId, plantingId } from './ids.ts';
import { dayOrYear, label, words } from './members.ts';

export const plantingStarted = z.strictObject({
  plantingId,
  fieldId,
  crop: label,
  ediblePart: z.enum([
    'root',
    'leaf',
    'stem',
    'fruitOnGround',
    'fruitAbove',
    'tree',
    'grain',
    'seedForSprouts',
    'notForFood',
  ]),
  plantedOn: dayOrYear.optional(),
  /** Transplants: the planting in the greenhouse that they come from. */
  fromPlantingId: plantingId.optional(),
  /** Standing under produce safety rules: covered, rarelyConsumedRaw, processed, … */
  produceRule: words.optional(),
});
export const plantingEnded = z.strictObject({ plantingId, reason: words.optional() });
