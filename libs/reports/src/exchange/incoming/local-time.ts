import { parseInstant, spanAt, type Instant } from '@furrowmark/domain';

/** What a clock on the wall showed. */
export interface WallTime {
  readonly date: string;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
}

const two = (n: number): string => String(n).padStart(2, '0');

const day = 86_400_000;

/**
 * The instants at which clocks in the zone showed this: one; none in the hour that is skipped in spring; two in the hour
 * that is lived twice in autumn, the earlier first.
 */
export function instantsOf({ date, hour, minute, second }: WallTime, zone: string): Instant[] {
  const asUtc = parseInstant(`${date}T${two(hour)}:${two(minute)}:${two(Math.floor(second))}Z`);
  if (asUtc === null) return [];
  const shown = asUtc + (second % 1) * 1000;
  const offsets = new Set([-day, 0, day].map((shift) => spanAt(shown + shift, zone).offset));
  return [...offsets]
    .map((offset) => shown - offset)
    .filter((instant) => instant + spanAt(instant, zone).offset === shown)
    .sort((a, b) => a - b);
}
