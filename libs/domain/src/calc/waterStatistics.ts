import { z } from 'zod';
import { later } from '../later.ts';
import { plainNumber } from './amounts.ts';
import { calculation, refuse, type Refusal, type Worked } from './calculation.ts';
import { figure } from './figures.ts';

const source =
  'Geometric mean and statistical threshold value as defined in EPA 2012 Recreational Water Quality Criteria and the 2015 text of 21 CFR 112.44(b): log₁₀ of the data, STV = 10^(mean + 1.282 s), s with n − 1';

const input = later(() =>
  z.strictObject({
    values: z.array(plainNumber()).min(1, 'must hold at least one result').max(10_000, 'must be at most 10000 results'),
    unit: z.string().min(1, 'must name the unit, such as {CFU}/(100.mL)').max(100),
  }),
);

export interface WaterAnswer extends Worked {
  readonly geometricMean: number;
  /** null with a single result: one result has no spread. */
  readonly statisticalThresholdValue: number | null;
  readonly count: number;
  readonly unit: string;
}

/** Geometric mean and statistical threshold value of water test results, in their own unit. */
export const waterStatistics = calculation<z.infer<ReturnType<typeof input>>, WaterAnswer>({
  name: 'water-statistics',
  title: 'Geometric mean and statistical threshold value',
  source,
  input,
  work: statistics,
});

/** log₁₀ mean, and sample standard deviation of the logarithms (n − 1); null for one value. */
export function logMoments(values: readonly number[]): { readonly mean: number; readonly deviation: number | null } {
  const logs = values.map(Math.log10);
  const mean = logs.reduce((a, b) => a + b, 0) / logs.length;
  if (logs.length < 2) return { mean, deviation: null };
  const squares = logs.reduce((a, b) => a + (b - mean) ** 2, 0);
  return { mean, deviation: Math.sqrt(squares / (logs.length - 1)) };
}

function statistics(q: z.infer<ReturnType<typeof input>>): WaterAnswer | Refusal {
  const wrong = q.values.findIndex((v) => v <= 0);
  if (wrong >= 0) {
    return refuse(
      ['values', wrong],
      'A result of 0 or less has no logarithm: enter the detection limit for “none detected”, and say so beside the figure.',
    );
  }
  const { mean, deviation } = logMoments(q.values);
  const threshold = deviation === null ? null : 10 ** (mean + 1.282 * deviation);
  return {
    geometricMean: Number((10 ** mean).toPrecision(12)),
    statisticalThresholdValue: threshold === null ? null : Number(threshold.toPrecision(12)),
    count: q.values.length,
    unit: q.unit,
    working: [
      `Mean of log₁₀ of ${String(q.values.length)} results: ${figure(mean)}; geometric mean 10^${figure(mean)} = ${figure(10 ** mean)}`,
      deviation === null || threshold === null
        ? 'One result has no spread: no statistical threshold value'
        : `Standard deviation of log₁₀ (n − 1): ${figure(deviation)}; 10^(${figure(mean)} + 1.282 × ${figure(deviation)}) = ${figure(threshold)}`,
    ],
    cautions: [
      'For information: since 2024 pre-harvest water is judged by a yearly written assessment (21 CFR 112.43), and tea water by each single result, without averaging (21 CFR 112.51).',
    ],
    source,
  };
}
