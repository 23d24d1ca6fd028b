import { z } from 'zod';
import { later } from '../later.ts';
import { instantOf, parseInstant } from '../calendar/index.ts';
import { fieldId, recipeId, vesselId } from '../records/index.ts';
import { area, areaRate, flow, volume } from './amounts.ts';

const instant = later(() =>
  z
    .string()
    .refine((text) => parseInstant(text) !== null, 'must be a time with its offset, such as 2026-06-03T06:10:00-05:00')
    .transform(instantOf),
);

const onField = later(() => z.strictObject({ fieldId, rate: areaRate() }));
const onArea = later(() => z.strictObject({ area: area(), rate: areaRate() }));

/**
 * The question for a brew plan, as it comes over HTTP: fields (or plain areas) with their rates, the window, the
 * vessels, what the sprayer holds and puts out. `targets` may be one such target or a list; read, it is always a list, and times are instants.
 */
export const planRequest = later(() =>
  z.strictObject({
    spray: z.strictObject({ from: instant(), to: instant() }),
    targets: z
      .union([
        z
          .array(z.union([onField(), onArea()]))
          .min(1)
          .max(1000),
        onField(),
        onArea(),
      ])
      .transform((targets) => (Array.isArray(targets) ? targets : [targets])),
    vessels: z.array(vesselId).min(1, 'must name at least one vessel').max(100),
    recipeId: recipeId.optional(),
    source: z.strictObject({ disinfectant: z.enum(['none', 'chlorine', 'chloramine', 'unknown']) }).optional(),
    sprayer: z.strictObject({ tank: volume().optional(), perHour: flow().optional() }).optional(),
  }),
);

export type PlanRequest = z.output<ReturnType<typeof planRequest>>;
