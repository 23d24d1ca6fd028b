import type { Instant, Moment, Span } from '../facts/time.ts';
import { momentOf } from '../current.ts';
import type { CurrentRecord } from '../records/record.ts';

/** A time written inside a record, as sure or unsure as the record itself. */
export function within(record: CurrentRecord, text: string | undefined): Moment {
  return text === undefined ? record.at : momentOf(text, record.plusMinusMinutes);
}

/**
 * When the air stopped. Found off later, it stopped between when it was last known to run and when it was found off;
 * the recorded time is kept inside these bounds.
 */
export function airStopMoment(record: CurrentRecord<'batch.airStopped'>): Moment {
  const { lastKnownRunningAt, foundAt } = record.data;
  const from = lastKnownRunningAt === undefined ? record.at.from : momentOf(lastKnownRunningAt).at;
  const to = foundAt === undefined ? Math.max(from, record.at.to) : momentOf(foundAt).at;
  return { at: Math.min(Math.max(record.at.at, from), to), from: Math.min(from, to), to };
}

const minute = 60_000;
export const hour = 3_600_000;

function span(from: Moment, to: Moment, unit: number): Span {
  return {
    value: Math.max(0, to.at - from.at) / unit,
    least: Math.max(0, to.from - from.to) / unit,
    most: Math.max(0, to.to - from.from) / unit,
  };
}

/** Length from one moment to another in minutes; never negative. */
export const minutesBetween = (from: Moment, to: Moment): Span => span(from, to, minute);
/** Length in hours. */
export const hoursBetween = (from: Moment, to: Moment): Span => span(from, to, hour);

export function later(a: Moment, b: Moment): Moment {
  return { at: Math.max(a.at, b.at), from: Math.max(a.from, b.from), to: Math.max(a.to, b.to) };
}

export function earlier(a: Moment, b: Moment): Moment {
  return { at: Math.min(a.at, b.at), from: Math.min(a.from, b.from), to: Math.min(a.to, b.to) };
}

export const exactly = (at: Instant): Moment => ({ at, from: at, to: at });
