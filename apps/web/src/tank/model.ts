import type { Batch, Season, Uptake } from '@furrowmark/domain';
import type { Engine } from '../season/engine.ts';
import { limitsOf, parametersAt, type Limit } from './limits.ts';
import { expected, type Next } from './next.ts';

/** A stretch of the brew on the axis of time. `to` null: still running. */
export interface Stretch {
  readonly kind: 'air' | 'noAir' | 'brew' | 'hold' | 'fill';
  readonly from: number;
  readonly to: number | null;
}

/** What the views at the tank show of one batch now. */
export interface Tank {
  readonly batch: Batch;
  readonly vesselCode: string;
  readonly next: readonly Next[];
  readonly limits: readonly Limit[];
  readonly stretches: readonly Stretch[];
  readonly oxygenLimit: number | null;
  /** After air off, from three readings on: when oxygen is expected at the limit. */
  readonly forecast: Uptake | null;
  /** Litres in the tank by the books. */
  readonly contentL: number | null;
}

const open: ReadonlySet<string> = new Set(['open', 'filled', 'aerating', 'brewing', 'holding']);

/** The batches that are under way, the most pressing first. */
export function tanksNow(engine: Engine, season: Season, now: number): readonly Tank[] {
  return season
    .batches()
    .filter(({ phase }) => open.has(phase))
    .map((batch) => tankOf(engine, season, batch, now))
    .sort((a, b) => pressure(a) - pressure(b) || (a.batch.code < b.batch.code ? -1 : 1));
}

const pressure = ({ next }: Tank): number => next[0]?.at ?? Infinity;

export function tankOf(engine: Engine, season: Season, batch: Batch, now: number): Tank {
  const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
  const oxygen = parametersAt(engine, season, 'oxygen-minimum', now);
  const oxygenLimit = oxygen?.['minimumMgPerL'] ?? null;
  return {
    batch,
    vesselCode: vessel === undefined ? '' : engine.domain.asOf(vessel, now).code,
    next: expected(engine, season, batch, now),
    limits: limitsOf(engine, season, batch),
    stretches: stretchesOf(batch),
    oxygenLimit,
    forecast: oxygenLimit === null ? null : forecastOf(engine, batch, oxygenLimit),
    contentL: batch.content.at(-1)?.litres.toNumber() ?? null,
  };
}

/** Readings after *the* air off, or the last one before it, decline at the rate at which the tea uses oxygen. */
function forecastOf(engine: Engine, batch: Batch, limit: number): Uptake | null {
  const { airOff } = batch;
  if (airOff === null) return null;
  const after = batch.oxygen.filter(({ at, qualifier }) => at.at >= airOff.at && qualifier === undefined);
  if (after.length < 3) return null;
  return engine.domain.oxygenUptakeOf(
    after.map(({ at, mgPerL }) => ({ at: at.at, mgPerL })),
    limit,
  );
}

/** Fill, air and its gaps, brew and hold, as stretches of time. */
export function stretchesOf(batch: Batch): readonly Stretch[] {
  const found: Stretch[] = batch.fills.map(({ started, finished }) => ({
    kind: 'fill' as const,
    from: started.at,
    to: finished.at,
  }));
  const end = batch.closed?.at.at ?? null;
  const firstAir = batch.airStarts[0]?.at.at;
  let from = firstAir ?? null;
  for (const gap of batch.interruptions) {
    if (from !== null) found.push({ kind: 'air', from, to: gap.stopped.at });
    if (gap.restarted !== null) found.push({ kind: 'noAir', from: gap.stopped.at, to: gap.restarted.at });
    from = gap.restarted?.at ?? null;
  }
  if (from !== null) found.push({ kind: 'air', from, to: end });
  if (batch.brewStart !== null) found.push({ kind: 'brew', from: batch.brewStart.at, to: batch.airOff?.at ?? end });
  if (batch.airOff !== null && batch.brewStart !== null) {
    const applied = batch.draws.reduce<number | null>(
      (last, { appliedUntil }) => (appliedUntil === null ? last : Math.max(last ?? 0, appliedUntil.at)),
      null,
    );
    const held = applied !== null && applied > batch.airOff.at ? applied : end;
    found.push({ kind: 'hold', from: batch.airOff.at, to: held });
  }
  return found;
}
