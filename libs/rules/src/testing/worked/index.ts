import { brewCases } from './brew.ts';
import type { WorkedCase } from './case.ts';
import { compostCases } from './compost.ts';
import { groundCases } from './ground.ts';
import { inputCases } from './inputs.ts';
import { recordCases } from './records.ts';
import { toolCases } from './tools.ts';
import { waterCases } from './water.ts';

export type { Said, Side, WorkedCase } from './case.ts';

/** At least one worked case of every rule of the catalogue. */
export const workedCases: readonly WorkedCase[] = [
  ...waterCases,
  ...brewCases,
  ...inputCases,
  ...compostCases,
  ...groundCases,
  ...toolCases,
  ...recordCases,
];
