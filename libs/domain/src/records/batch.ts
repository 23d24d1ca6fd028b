import { z } from 'zod';
import { later } from '../later.ts';
import { batchId, equipmentId, recipeId, vesselId } from './ids.ts';
import { count, impossible, instant, label, words } from './members.ts';
import { volume } from './quantitySchema.ts';
import { teaKind } from './recipe.ts';
import { parseInstant } from '../calendar/index.ts';

export const batchOpened = later(() =>
  z.strictObject({
    batchId,
    code: label,
    kind: teaKind,
    vesselId,
    recipeId: recipeId.optional(),
    plannedVolume: volume().optional(),
  }),
);
export const batchAirStarted = later(() => z.strictObject({ batchId, blowerId: equipmentId.optional() }));
export const batchAirStopped = later(() =>
  z
    .strictObject({
      batchId,
      blowerId: equipmentId.optional(),
      cause: z.enum(['planned', 'powerCut', 'breakdown', 'other']).optional(),
      lastKnownRunningAt: instant.optional(),
      foundAt: instant.optional(),
    })
    .check(({ value, issues }) => {
      const { lastKnownRunningAt, foundAt } = value;
      if (lastKnownRunningAt === undefined || foundAt === undefined) return;
      if ((parseInstant(lastKnownRunningAt) ?? 0) > (parseInstant(foundAt) ?? 0))
        issues.push(
          impossible(
            lastKnownRunningAt,
            'lastKnownRunningAt',
            `lies after the air was found off at ${foundAt}: correct the wrong one of the two`,
          ),
        );
    }),
);
export const batchClosed = later(() =>
  z.strictObject({
    batchId,
    remainingVolume: volume().optional(),
    note: words.optional(),
  }),
);
/** An electronic signature over the batch's records up to and including `throughSeq`. */
export const batchReviewed = later(() =>
  z.strictObject({
    batchId,
    throughSeq: count,
    meaning: z.enum(['reviewed', 'approved']),
    statement: label,
  }),
);
