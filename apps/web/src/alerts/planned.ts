/** Something to be told of on this phone, once. Words are made when it is planned: who tells it knows none. */
export interface Planned {
  /** `findingId dueAt`, or `findingId broken`: told once under this key. */
  readonly key: string;
  /** When to tell it, ms since 1970. */
  readonly at: number;
  /** From then on it is too old to be told. */
  readonly until: number;
  /** Told in quiet hours too: tea without air or oxygen does not wait for the morning. */
  readonly loud: boolean;
  readonly title: string;
  readonly body: string;
  /** Where it leads. */
  readonly path: string;
}

/** Minutes of the operation's day: from 22:00 until 05:00 is `{from: 1320, until: 300}`. null: none. */
export type QuietHours = { readonly from: number; readonly until: number } | null;

/** What this device tells of one operation. */
export interface AlertPlan {
  readonly operationId: string;
  readonly on: boolean;
  /** Told so many minutes before something is due. */
  readonly leadMinutes: number;
  readonly quiet: QuietHours;
  readonly zone: string;
  readonly language: 'en' | 'es';
  readonly planned: readonly Planned[];
  /** When it was planned. */
  readonly plannedAt: number;
  /** Keys already told, and when. */
  readonly told: Readonly<Record<string, number>>;
}

const day = 24 * 3_600_000;

/** Whether the operation's clock stands in the quiet hours; they may go over midnight. */
export function isQuiet(quiet: QuietHours, minuteOfDay: number): boolean {
  if (quiet === null || quiet.from === quiet.until) return false;
  return quiet.from < quiet.until
    ? minuteOfDay >= quiet.from && minuteOfDay < quiet.until
    : minuteOfDay >= quiet.from || minuteOfDay < quiet.until;
}

/** What is to be told now: due for it, not told yet, not too old; in quiet hours only what is loud. The earliest first. */
export function toTell(plan: AlertPlan, now: number, minuteOfDay: number): readonly Planned[] {
  if (!plan.on) return [];
  const quiet = isQuiet(plan.quiet, minuteOfDay);
  return plan.planned
    .filter(({ key, at, until, loud }) => at <= now && now < until && !(key in plan.told) && (loud || !quiet))
    .toSorted((a, b) => a.at - b.at);
}

/** The plan with these told. What was told long ago and is planned no more is forgotten. */
export function withTold(plan: AlertPlan, keys: readonly string[], now: number): AlertPlan {
  const planned = new Set(plan.planned.map(({ key }) => key));
  const kept = Object.entries(plan.told).filter(([key, at]) => planned.has(key) || now - at < 7 * day);
  return { ...plan, told: { ...Object.fromEntries(kept), ...Object.fromEntries(keys.map((key) => [key, now])) } };
}
