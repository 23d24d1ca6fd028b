import { z } from 'zod';

const amount = z.object({ value: z.number(), unit: z.string() });

/** A plan as the service answers it. */
export const planned = z.object({
  batches: z.array(
    z.object({
      vesselId: z.string(),
      volume: amount,
      fillFrom: z.string(),
      fillBy: z.string(),
      airOnAt: z.string(),
      ingredientsAt: z.string(),
      airOffAt: z.string(),
      applyFrom: z.string(),
      applyBy: z.string(),
      loads: z.number().nullable(),
      fields: z.array(z.object({ fieldId: z.string().nullable(), volume: amount, loads: z.number().nullable() })),
      ingredients: z.array(
        z.object({
          materialId: z.string(),
          quantity: amount,
          lots: z.array(z.object({ lotId: z.string(), quantity: amount })),
        }),
      ),
    }),
  ),
  warnings: z.array(z.string()),
  total: z.object({ needed: amount, planned: amount }),
});
export type Planned = z.infer<typeof planned>;
export type PlannedBrew = Planned['batches'][number];
