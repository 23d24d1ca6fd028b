import { endOfDay, isDate, parseInstant, startOfDay } from '@furrowmark/domain';
import { z } from 'zod';
import { uuidOf } from '../http/index.ts';

/** A whole number, not negative, as a query writes it. */
export const count = z
  .string()
  .regex(/^\d{1,15}$/, 'must be a whole number, not negative')
  .transform(Number);

/** How many on a page: 100 where left out, at most 1,000. */
export const limit = z
  .string()
  .regex(/^\d{1,4}$/, 'must be a whole number from 1 to 1000')
  .transform(Number)
  .refine((number) => number >= 1 && number <= 1000, 'must be a whole number from 1 to 1000')
  .default(100);

/** A UUID. */
export const uuid = z.string().transform((text, context) => {
  const id = uuidOf(text);
  if (id !== null) return id;
  context.addIssue({ code: 'custom', message: 'must be a UUID' });
  return z.NEVER;
});

/** RFC 3339 with offset; milliseconds. A blank stands for the plus sign that an unescaped query turned into one. */
export const instant = z.string().transform((text, context) => {
  const at = parseInstant(text.replace(/ (?=\d\d:\d\d$)/, '+'));
  if (at !== null) return at;
  context.addIssue({
    code: 'custom',
    message: 'must be a date and time with its offset, such as 2026-06-03T06:10:00-05:00',
  });
  return z.NEVER;
});

/** A day of the operation's zone, or an instant. */
export const dayOrInstant = z.string().transform((text, context): { day: string } | { at: number } => {
  if (isDate(text)) return { day: text };
  const at = parseInstant(text.replace(/ (?=\d\d:\d\d$)/, '+'));
  if (at !== null) return { at };
  context.addIssue({ code: 'custom', message: 'must be a day, such as 2026-06-03, or an instant with its offset' });
  return z.NEVER;
});

type DayOrInstant = z.output<typeof dayOrInstant>;

/**
 * A stretch of time in milliseconds, `to` exclusive: days count whole, in the zone; an instant is itself included. A
 * reading link's reach bounds it.
 */
export function rangeIn(
  zone: string,
  { from, to }: { readonly from?: DayOrInstant | undefined; readonly to?: DayOrInstant | undefined },
  reach: { readonly start: number; readonly end: number } = { start: -Infinity, end: Infinity },
): { from?: number; to?: number } {
  const start = Math.max(
    reach.start,
    from === undefined ? -Infinity : 'day' in from ? startOfDay(from.day, zone) : from.at,
  );
  const end = Math.min(reach.end, to === undefined ? Infinity : 'day' in to ? endOfDay(to.day, zone) : to.at + 1);
  return { ...(start === -Infinity ? {} : { from: start }), ...(end === Infinity ? {} : { to: end }) };
}
