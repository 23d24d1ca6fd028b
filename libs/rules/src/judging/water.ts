import {
  addDays,
  asOf,
  dateOn,
  type Batch,
  type CurrentRecord,
  type Fill,
  type Moment,
  type Season,
  type Source,
} from '@furrowmark/domain';
import { milligramBounds, type Bounds } from './reading.ts';

/** Fills before any food went in: the water that the brew starts from. */
export const firstFills = (batch: Batch): readonly Fill[] => batch.fills.filter((fill) => !fill.ontoLivingTea);

/** The code written on a source; its id's first block while it is not registered. */
export const sourceCode = (season: Season, id: string): string => season.source(id)?.registered.code ?? id.slice(0, 8);

/** The source as it was at that moment. */
export const sourceAt = (season: Season, id: string, at: number): Source['registered'] | null => {
  const source = season.source(id);
  return source === undefined ? null : asOf(source, at);
};

/** A chlorine reading's bounds in mg/L, free or total; null where that one was not measured. */
export function chlorineBounds(
  reading: CurrentRecord<'batch.chlorineMeasured'>,
  which: 'free' | 'total',
): Bounds | null {
  const written = reading.data[which];
  return written === undefined ? null : milligramBounds(written);
}

/** Readings not before `from` and not after `to` (null = no end). */
export const between = (
  readings: readonly CurrentRecord<'batch.chlorineMeasured'>[],
  from: Moment,
  to: Moment | null,
): readonly CurrentRecord<'batch.chlorineMeasured'>[] =>
  readings.filter(({ at }) => at.to >= from.from && (to === null || at.from <= to.to));

/** Whether a reading was certainly not before `from` and not after `to`, however unsure the times are. */
export const surelyBetween = (at: Moment, from: Moment, to: Moment | null): boolean =>
  at.from >= from.to && (to === null || at.to <= to.from);

/** Whether a document's dates, both inclusive, hold on a day; without an end it holds for `validDays` from its beginning. */
export function coversDay(
  { from, until }: { readonly from: string; readonly until?: string | undefined },
  day: string,
  validDays: number,
): boolean {
  return from <= day && day <= (until ?? addDays(from, validDays));
}

export const dayOf = (season: Season, at: number): string => dateOn(at, season.timeZone);
