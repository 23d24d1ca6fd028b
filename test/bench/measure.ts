/** Median and spread of what was measured. */
export interface Spread {
  readonly median: number;
  readonly least: number;
  readonly most: number;
}

/** One row of the table. */
export interface Row {
  readonly work: string;
  /** What it was measured beside, in the same run; null where the aim is a figure of its own. */
  readonly beside: string | null;
  readonly unit: string;
  readonly ours: Spread;
  readonly peer: Spread | null;
  /** Ours to the peer's so that the aim can be read off; the median of the rounds' ratios. */
  readonly ratio: Spread | null;
  readonly aim: string;
  readonly reached: boolean;
  readonly remark?: string;
}

/** How much is measured. */
export interface Extent {
  /** `quick` only shows that every row runs; `long` takes the sizes of the aims. */
  readonly mode: 'quick' | 'usual' | 'long';
  readonly rounds: number;
}

export function spreadOf(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b);
  return { median: quantile(sorted, 0.5), least: sorted[0] ?? NaN, most: sorted.at(-1) ?? NaN };
}

/** The value below which that share of the sorted values lies. */
export function quantile(sorted: readonly number[], share: number): number {
  const place = (sorted.length - 1) * share;
  const [low, high] = [sorted[Math.floor(place)] ?? NaN, sorted[Math.ceil(place)] ?? NaN];
  return low + (high - low) * (place - Math.floor(place));
}

/** Milliseconds that the work takes. */
export async function timed(work: () => unknown): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/**
 * Both sides in turn, round by round, so that whatever else the machine does meets both. `unmeasured` rounds before warm
 * both up.
 */
export async function inTurn(
  rounds: number,
  ours: (round: number) => Promise<number>,
  peer: (round: number) => Promise<number>,
  unmeasured = 1,
): Promise<{ ours: Spread; peer: Spread; ratio: Spread }> {
  const [mine, theirs]: [number[], number[]] = [[], []];
  for (let round = -unmeasured; round < rounds; round += 1) {
    const [a, b] = [await ours(round + unmeasured), await peer(round + unmeasured)];
    if (round < 0) continue;
    mine.push(a);
    theirs.push(b);
  }
  return {
    ours: spreadOf(mine),
    peer: spreadOf(theirs),
    ratio: spreadOf(mine.map((value, i) => value / (theirs[i] ?? NaN))),
  };
}

/** The same for work that has no peer. */
export async function alone(rounds: number, work: (round: number) => Promise<number>, unmeasured = 1): Promise<Spread> {
  const values: number[] = [];
  for (let round = -unmeasured; round < rounds; round += 1) {
    const value = await work(round + unmeasured);
    if (round >= 0) values.push(value);
  }
  return spreadOf(values);
}
