import { timeOn } from '@furrowmark/domain';

/** Clock times of the operation's zone between which nobody is woken: `21:00`, `05:30`. Over midnight where `from` is later. */
export interface QuietHours {
  readonly from: string;
  readonly until: string;
}

/** Rules whose alerts do not wait for the morning: a tank without air or oxygen is lost by then. */
const urgent: ReadonlySet<string> = new Set(['air-continuous', 'oxygen-minimum', 'oxygen-checked']);

export const isUrgent = (ruleId: string): boolean => urgent.has(ruleId);

/** Whether the hour is one of those, `from` included, `until` not. */
export function isQuiet(quiet: QuietHours | null, now: number, timeZone: string): boolean {
  if (quiet === null || quiet.from === quiet.until) return false;
  const clock = timeOn(now, timeZone);
  return quiet.from < quiet.until
    ? clock >= quiet.from && clock < quiet.until
    : clock >= quiet.from || clock < quiet.until;
}
