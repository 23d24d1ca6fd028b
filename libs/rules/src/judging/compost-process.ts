import { addDays, daysBetween, numberIn, type Pile, type Season } from '@furrowmark/domain';
import { dayOf } from './water.ts';

/** What a set of rules asks of a heated pile. Temperatures in °F, both ends allowed. */
export interface HeatRules {
  readonly leastF: number;
  /** null = no upper end. */
  readonly mostF: number | null;
  readonly days: number;
  /** Turnings within those days; 0 = none needed. */
  readonly turnings: number;
  /** Whether the days have to follow one another. */
  readonly inARow: boolean;
}

export interface Heat {
  /** `missed`: a day without a reading could have been warm enough; nothing else stands against it. */
  readonly state: 'reached' | 'missed' | 'notReached' | 'running';
  /** Days that were warm enough, by what was recorded: the longest run of them, or all where they need no row. */
  readonly bestDays: number;
  readonly turnings: number;
  readonly missedDays: number;
  readonly recordIds: readonly string[];
}

type Day = 'warm' | 'cold' | 'missing';

/** Every spot counts: the coldest must be warm enough and the hottest not too hot. */
function dayState(season: Season, pile: Pile, rules: HeatRules): (day: string) => Day {
  const states = new Map<string, Day>();
  for (const { at, data } of pile.temperatures) {
    const day = dayOf(season, at.at);
    const values = data.temperatures.map(({ value }) => numberIn(value, '[degF]') ?? -Infinity);
    const warm = values.every((f) => f >= rules.leastF && (rules.mostF === null || f <= rules.mostF));
    states.set(day, warm && states.get(day) !== 'cold' ? 'warm' : 'cold');
  }
  return (day) => states.get(day) ?? 'missing';
}

/**
 * Days that need no row: as many as asked for, and the turnings from the first of them to the last. A day without a
 * reading between them may have been warm.
 */
function scattered(days: readonly string[], state: (day: string) => Day, turned: readonly string[], rules: HeatRules) {
  const warm = days.filter((day) => state(day) === 'warm');
  const [first = '', last = ''] = [warm[0], warm.at(-1)];
  const between = (day: string) => first <= day && day <= last;
  const perhaps = days.filter((day) => between(day) && state(day) !== 'cold');
  const turnings = turned.filter(between).length;
  const enough = (count: number) => count >= rules.days && turnings >= rules.turnings;
  return {
    state: enough(warm.length) ? 'reached' : enough(perhaps.length) ? 'missed' : 'notReached',
    bestDays: warm.length,
    turnings,
    missedDays: Math.max(0, rules.days - warm.length),
  } as const;
}

/**
 * Looks for the stretch of consecutive days that the rules ask for, from the pile's first reading to its finishing. A
 * missed day is not known to have been warm; it can be neither counted nor held against the pile.
 */
export function heatOf(season: Season, pile: Pile, rules: HeatRules): Heat {
  const finished = pile.finishes[0];
  const recordIds = [pile.started.id, ...pile.temperatures.map(({ id }) => id), ...pile.turnings.map(({ id }) => id)];
  const first = dayOf(season, pile.started.at.at);
  const lastReading = pile.temperatures.at(-1);
  const end = dayOf(season, finished?.at.at ?? lastReading?.at.at ?? pile.started.at.at);
  const state = dayState(season, pile, rules);
  const turned = pile.turnings.map(({ at }) => dayOf(season, at.at));
  const days = Array.from({ length: daysBetween(first, end) + 1 }, (_, i) => addDays(first, i));
  if (!rules.inARow) {
    const found = scattered(days, state, turned, rules);
    const open = finished === undefined && found.state !== 'reached';
    return { ...found, state: open ? 'running' : found.state, recordIds };
  }
  let bestDays = 0;
  let bestTurnings = 0;
  let run = 0;
  for (const day of days) {
    run = state(day) === 'warm' ? run + 1 : 0;
    bestDays = Math.max(bestDays, run);
  }
  let missed: number | null = null;
  for (let i = 0; i + rules.days <= days.length; i++) {
    const window = days.slice(i, i + rules.days);
    if (window.some((day) => state(day) === 'cold')) continue;
    const gaps = window.filter((day) => state(day) === 'missing').length;
    if (gaps === window.length) continue;
    const turnings = turned.filter((day) => window.includes(day)).length;
    bestTurnings = Math.max(bestTurnings, turnings);
    if (turnings < rules.turnings) continue;
    if (gaps === 0) return { state: 'reached', bestDays, turnings, missedDays: 0, recordIds };
    missed = missed === null ? gaps : Math.min(missed, gaps);
  }
  return {
    state: finished === undefined ? 'running' : missed === null ? 'notReached' : 'missed',
    bestDays,
    turnings: bestTurnings,
    missedDays: missed ?? 0,
    recordIds,
  };
}
