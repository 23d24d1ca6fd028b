import type { Batch, Quantity, Season, Uptake } from '@furrowmark/domain';
import type { Engine } from '../season/engine.ts';
import type { FormId } from './forms/ids.ts';
import { limitsOf, parametersAt, type Limit } from './limits.ts';
import { expected, likely, type Next } from './next.ts';

/** A stretch of the brew on the axis of time. `to` null: still running. */
export interface Stretch {
  readonly kind: 'air' | 'noAir' | 'brew' | 'hold' | 'fill';
  readonly from: number;
  readonly to: number | null;
}

export type ClockLabel = 'clockAir' | 'clockBrew' | 'clockHold' | 'clockFilled' | 'clockOpened';

/** What the views at the tank show of one batch now. Plain data: it is judged elsewhere, and kept for the next start. */
export interface Tank {
  readonly batchId: string;
  readonly code: string;
  readonly phase: Batch['phase'];
  readonly vesselId: string | null;
  readonly vesselCode: string;
  /** When it was opened, else when the first thing is known of it. */
  readonly startedAt: number;
  /** The clock that counts in this phase, and since when. */
  readonly counting: { readonly label: ClockLabel; readonly from: number } | null;
  readonly next: readonly Next[];
  /** What else is likely now, the likeliest first. */
  readonly likely: readonly FormId[];
  readonly limits: readonly Limit[];
  readonly stretches: readonly Stretch[];
  /** The last reading as it was written. */
  readonly oxygen: { readonly at: number; readonly written: Quantity } | null;
  readonly oxygenLimit: number | null;
  /** After air off, from three readings on: when oxygen is expected at the limit. */
  readonly forecast: Uptake | null;
  /** What is in the tank by the books, in the unit of the first fill. */
  readonly content: Quantity | null;
}

/** A tank with nothing in it, and the batch that was in it last. */
export interface IdleTank {
  readonly vesselId: string;
  readonly code: string;
  readonly last: string | null;
}

/** Everything that the list of tanks shows. */
export interface TanksView {
  readonly zone: string;
  readonly tanks: readonly Tank[];
  readonly idle: readonly IdleTank[];
}

const open: ReadonlySet<string> = new Set(['open', 'filled', 'aerating', 'brewing', 'holding']);

/** The batches that are under way, the most pressing first, and the tanks that wait for one. */
export function tanksNow(engine: Engine, season: Season, now: number): TanksView {
  const all = season.batches();
  const tanks = all
    .filter(({ phase }) => open.has(phase))
    .map((batch) => tankOf(engine, season, batch, now))
    .sort((a, b) => pressure(a) - pressure(b) || (a.code < b.code ? -1 : 1));
  const inUse = new Set(tanks.map(({ vesselId }) => vesselId));
  const idle = season
    .vessels()
    .filter(({ id, retired }) => !inUse.has(id) && (retired === undefined || retired.at > now))
    .map((vessel): IdleTank => {
      const before = all.filter(({ vesselId }) => vesselId === vessel.id).toSorted((a, b) => startOf(a) - startOf(b));
      return { vesselId: vessel.id, code: engine.domain.asOf(vessel, now).code, last: before.at(-1)?.code ?? null };
    });
  return { zone: season.timeZone, tanks, idle };
}

const pressure = ({ next }: Tank): number => next[0]?.at ?? Infinity;
const startOf = (batch: Batch): number => batch.opened?.at.at ?? batch.records[0]?.at.at ?? 0;

export function tankOf(engine: Engine, season: Season, batch: Batch, now: number): Tank {
  const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
  const oxygen = parametersAt(engine, season, 'oxygen-minimum', now);
  const oxygenLimit = oxygen?.['minimumMgPerL'] ?? null;
  return {
    ...{ batchId: batch.id, code: batch.code, phase: batch.phase, vesselId: batch.vesselId },
    vesselCode: vessel === undefined ? '' : engine.domain.asOf(vessel, now).code,
    startedAt: startOf(batch),
    counting: counting(batch),
    next: expected(engine, season, batch, now),
    likely: likely(batch),
    limits: limitsOf(engine, season, batch),
    stretches: stretchesOf(batch),
    oxygen: lastOxygen(batch),
    oxygenLimit,
    forecast: oxygenLimit === null ? null : forecastOf(engine, batch, oxygenLimit),
    content: contentOf(engine, batch),
  };
}

function lastOxygen(batch: Batch): Tank['oxygen'] {
  const last = batch.oxygen.at(-1);
  const record = batch.records.find(({ id }) => id === last?.recordId);
  if (last === undefined || record?.type !== 'batch.oxygenMeasured') return null;
  return { at: last.at.at, written: record.data.dissolvedOxygen };
}

function contentOf(engine: Engine, batch: Batch): Quantity | null {
  const litres = batch.content.at(-1)?.litres.toNumber();
  if (litres === undefined) return null;
  const unit = batch.fills[0]?.quantity.unit ?? 'L';
  const value = engine.domain.numberIn({ value: litres, unit: 'L' }, unit);
  return value === null ? { value: litres, unit: 'L' } : { value: Number(value.toPrecision(3)), unit };
}

function counting(batch: Batch): Tank['counting'] {
  switch (batch.phase) {
    case 'open':
      return batch.opened === null ? null : { label: 'clockOpened', from: batch.opened.at.at };
    case 'filled':
      return { label: 'clockFilled', from: batch.fills.at(-1)?.finished.at ?? 0 };
    case 'aerating': {
      const air = batch.airStarts.at(-1)?.at.at ?? 0;
      return { label: 'clockAir', from: Math.max(air, batch.fills.at(-1)?.finished.at ?? air) };
    }
    case 'brewing':
      return batch.brewStart === null
        ? null
        : { label: 'clockBrew', from: Math.max(batch.brewStart.at, batch.topUps.at(-1)?.at.at ?? 0) };
    case 'holding':
      return batch.airOff === null ? null : { label: 'clockHold', from: batch.airOff.at };
    default:
      return null;
  }
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
