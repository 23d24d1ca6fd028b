import { dateOn, endOfDay, isDate, startOfDay, type Instant } from '@furrowmark/domain';
import { z } from 'zod';
import type { Telling } from '../telling/index.ts';

const day = z.string().refine(isDate, 'must be a day that exists, such as 2026-06-03');

/** A period of local days, both inclusive; without them the calendar year of `now` so far. */
export const period = z
  .strictObject({ from: day.optional(), to: day.optional() })
  .refine(({ from, to }) => from === undefined || to === undefined || from <= to, {
    message: 'must not lie after `to`',
    path: ['from'],
  });
export type PeriodParameters = z.output<typeof period>;

export interface Period {
  readonly from: string;
  readonly to: string;
  /** First instant, and the first instant after it. */
  readonly start: Instant;
  readonly end: Instant;
}

/** The period asked for, as instants of the operation's zone. */
export function periodOf({ zone, now }: Pick<Telling, 'zone' | 'now'>, { from, to }: PeriodParameters): Period {
  const today = dateOn(now, zone);
  const last = to ?? today;
  const first = from ?? `${last.slice(0, 4)}-01-01`;
  return { from: first, to: last, start: startOfDay(first, zone), end: endOfDay(last, zone) };
}

export const isWithin = ({ start, end }: Period, at: Instant): boolean => at >= start && at < end;

/** An id in an address. */
export const id = z.string().regex(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/, 'must be a UUID in lower case');
