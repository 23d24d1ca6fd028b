import { z } from 'zod';
import { later } from '../later.ts';
import { materialId, recipeId } from './ids.ts';
import { label, retirement, words } from './members.ts';
import { duration, stock, volume } from './quantitySchema.ts';

/** What is brewed. */
export const teaKind = z.enum(['aeratedTea', 'extract', 'stillTea']);

/** A recipe is never revised: its next edition is published under the same `recipeId`. */
export const recipePublished = later(() =>
  z.strictObject({
    recipeId,
    edition: z.number().int().min(1),
    code: label,
    kind: teaKind,
    basisVolume: volume(),
    /** `from` and `to` bound the amount that still counts as this recipe. */
    ingredients: z.array(
      z.strictObject({ materialId, amount: stock(), from: stock().optional(), to: stock().optional() }),
    ),
    brewFor: duration().optional(),
    notes: words.optional(),
  }),
);
export const recipeRetired = later(() => retirement('recipeId', recipeId));
