import { z } from 'zod';
import { later } from '../later.ts';
import { fieldId, plantingId } from './ids.ts';
import { dayOrYear, label, words } from './members.ts';

/** What is eaten of a crop. */
export const edibleParts = [
  'root',
  'leaf',
  'stem',
  'fruitOnGround',
  'fruitAbove',
  'tree',
  'grain',
  'seedForSprouts',
  'notForFood',
] as const;

export const plantingStarted = later(() =>
  z.strictObject({
    plantingId,
    fieldId,
    crop: label,
    ediblePart: z.enum(edibleParts),
    plantedOn: dayOrYear.optional(),
    /** Transplants: the planting in the greenhouse that they come from. */
    fromPlantingId: plantingId.optional(),
    /** Standing under produce safety rules: covered, rarelyConsumedRaw, processed, … */
    produceRule: words.optional(),
  }),
);
export const plantingEnded = later(() => z.strictObject({ plantingId, reason: words.optional() }));
