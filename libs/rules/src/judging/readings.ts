import { decimal, type CurrentRecord, type Instrument, type Season } from '@furrowmark/domain';
import { say, type Said } from '../words/index.ts';
import { readingsNaming, type InstrumentReading, type Reach } from './reach.ts';

/** The batch that a reading names, in words. */
export function whereRead(season: Season, reading: InstrumentReading): string | Said {
  const { batchId } = reading.data;
  return batchId === undefined
    ? say('instrument-calibrated.theTank')
    : (season.batch(batchId)?.code ?? batchId.slice(0, 8));
}

/** The readings taken with an instrument in a batch, in order of time; null = in every batch. */
export function readingsBeside(
  season: Season,
  reach: Reach,
  { id }: Instrument,
  batchId: string | null,
): readonly InstrumentReading[] {
  if (batchId === null) return reach.readingsWith(id);
  return readingsNaming(season, batchId).filter(({ data }) => data.instrumentId === id && data.batchId === batchId);
}

/** A check and its outcome: how far the reading lay from what was expected, as a share of it; null where it cannot tell. */
export interface Drift {
  readonly record: CurrentRecord<'instrument.calibrated'> | CurrentRecord<'instrument.checked'>;
  readonly percent: number | null;
}

/** Reckoned in decimals: 8.1 for 9 is 10 % off, not a little more. */
const percentOff = (read: number, right: number): number =>
  decimal(read).minus(right).abs().times(100).div(decimal(right).abs()).toNumber();

/** Calibrations and checks of an instrument, in order of time, with how far it had drifted. */
export function driftsOf(instrument: Instrument): readonly Drift[] {
  const calibrated = instrument.calibrations.map((record): Drift => {
    const { readingBefore: before, readingAfter: after } = record.data;
    const told = before !== undefined && after !== undefined && before.unit === after.unit && after.value !== 0;
    return { record, percent: told ? percentOff(before.value, after.value) : null };
  });
  const checked = instrument.checks.map((record): Drift => {
    const { reading, expected } = record.data;
    const told = reading.unit === expected.unit && expected.value !== 0;
    return { record, percent: told ? percentOff(reading.value, expected.value) : null };
  });
  return [...calibrated, ...checked].sort(
    (a, b) => a.record.at.at - b.record.at.at || (a.record.id < b.record.id ? -1 : 1),
  );
}
