import { endOfDay, startOfDay } from '@furrowmark/domain';
import type { Period, Reach } from './roles.ts';

export function reachOf({ from, until }: Period, zone: string): Reach {
  return {
    from,
    until,
    start: from === null ? -Infinity : startOfDay(from, zone),
    end: until === null ? Infinity : endOfDay(until, zone),
  };
}

/** Records that describe a thing or a limit for all time are readable with any of them. */
export const standing = '\\.(described|registered|revised|retired|published|adopted)$';

/** SQL for "this entry is within reach"; takes {@link reachParameters} from the parameter of that number on. */
export const withinReach = (entry: string, first: number): string =>
  `(${entry}.type ~ '${standing}' OR (${entry}.occurred_at >= $${first} AND ${entry}.occurred_at < $${first + 1}))`;

export const reachParameters = ({ start, end }: Pick<Reach, 'start' | 'end'>): [string, string] => [
  Number.isFinite(start) ? new Date(start).toISOString() : '-infinity',
  Number.isFinite(end) ? new Date(end).toISOString() : 'infinity',
];
