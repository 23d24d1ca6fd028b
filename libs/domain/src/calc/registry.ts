import type { Calculation } from './calculation.ts';
import { compostMix } from './compostMix.ts';
import { convertQuantity } from './convertQuantity.ts';
import { fieldArea } from './fieldArea.ts';
import { neutralizerDose } from './neutralizerDose.ts';
import { oxygenSaturation } from './oxygenSaturation.ts';
import { oxygenUptake } from './oxygenUptake.ts';
import { scaleRecipe } from './scaleRecipe.ts';
import { sprayerOutput } from './sprayerOutput.ts';
import { waterStatistics } from './waterStatistics.ts';

/** The calculations by their name, the same over HTTP and on the command line. */
export const calculations = {
  'oxygen-saturation': oxygenSaturation,
  'oxygen-uptake': oxygenUptake,
  'neutralizer-dose': neutralizerDose,
  'sprayer-output': sprayerOutput,
  'water-statistics': waterStatistics,
  'compost-mix': compostMix,
  'scale-recipe': scaleRecipe,
  'field-area': fieldArea,
  convert: convertQuantity,
} as const satisfies Record<string, Calculation>;

export type CalculationName = keyof typeof calculations;

/** Whether there is a calculation of that name (`__proto__` and its like are none). */
export const isCalculation = (name: string): name is CalculationName => Object.hasOwn(calculations, name);
