import { dateOn, endOfDay, isDate, startOfDay, type Instant } from '@furrowmark/domain';
import { z } from 'zod';
import type { Telling } from '../telling/index.ts';

/** A local day in an address. */
export const day = z.string().refine(isDate, 'must be a day that exists, such as 2026-06-03');

interface Ends {
  readonly from?: string | undefined;
  readonly to?: string | undefined;
}

/** Refuses a period that ends before it begins. */
export const inOrder = <S extends z.ZodType<Ends>>(schema: S): S =>
  schema.refine(({ from, to }) => from === undefined || to === undefined || from <= to, {
    message: 'must not lie after `to`',
    path: ['from'],
  });

/** A period of local days, both inclusive; without them the calendar year of `now` so far. */
export const period = inOrder(z.strictObject({ from: day.optional(), to: day.optional() }));

export interface Period {
  readonly from: string;
  readonly to: string;
  /** First instant, and the first instant after it. */
  readonly start: Instant;
  readonly end: Instant;
}

/** The period asked for, as instants of the operation's zone. */
export function periodOf({ zone, now }: Pick<Telling, 'zone' | 'now'>, { from, to }: Ends): Period {
  const today = dateOn(now, zone);
  const last = to ?? today;
  const first = from ?? `${last.slice(0, 4)}-01-01`;
  return { from: first, to: last, start: startOfDay(first, zone), end: endOfDay(last, zone) };
}

export const isWithin = ({ start, end }: Period, at: Instant): boolean => at >= start && at < end;

/** An id in an address. */
export const id = z.string().regex(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/, 'must be a UUID in lower case');
