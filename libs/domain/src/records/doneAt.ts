import { isDate, parseInstant } from '../calendar/index.ts';
import type { Instant } from '../facts/time.ts';
import { memberProblem, type MemberProblem, type Path } from './problem.ts';

const HOUR = 3_600_000;
/** How far ahead of the server's clock something done may seem to lie: a phone in the wrong time zone. */
const AHEAD = 24 * HOUR;
/** Days begin at most this much before they begin in UTC (Kiribati). */
const EARLIEST_ZONE = 14 * HOUR;

/** Instants that may lie ahead although their names end in `At`. */
const AHEAD_ALLOWED = new Set(['expiresAt']);
/** Days on which something was done; other dates (`expiresOn`, `dueOn`, `until`) may lie ahead. */
const DONE_ON = new Set(['weighedOn', 'lastProhibitedOn']);

/** Why an instant at which something was done cannot be true; null where it can. */
function impossibleInstant(text: string, now: Instant): string | null {
  const at = parseInstant(text);
  if (at === null) return null;
  if (at > now + AHEAD) return `lies more than 24 hours ahead (${text}): correct the date, or the clock of the device`;
  return at < 0 ? `lies before 1970 (${text}): correct the year` : null;
}

function impossibleDay(text: string, now: Instant): string | null {
  if (!isDate(text) || Date.parse(`${text}T00:00:00Z`) - EARLIEST_ZONE <= now + AHEAD) return null;
  return `lies ahead (${text}), but was already done: correct the date`;
}

/**
 * Members anywhere in a record that say when something was done, and lie more than 24 hours ahead of `now` or before
 * 1970. Texts that are no times at all are left to the schemas.
 */
export function doneOutOfTime(value: unknown, now: Instant, path: Path = []): MemberProblem[] {
  if (Array.isArray(value)) return value.flatMap((item, i) => doneOutOfTime(item, now, [...path, i]));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, member]) => {
    const here = [...path, name];
    if (typeof member !== 'string') return name === 'parameters' ? [] : doneOutOfTime(member, now, here);
    const why =
      name.endsWith('At') && !AHEAD_ALLOWED.has(name)
        ? impossibleInstant(member, now)
        : DONE_ON.has(name)
          ? impossibleDay(member, now)
          : null;
    return why === null ? [] : [memberProblem(here, why)];
  });
}
