import { addDays, daysBetween, numberIn, type Moment, type Pile, type Season } from '@furrowmark/domain';
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
  /**
   * `missed`: a day without a reading could have been warm enough; nothing else stands against it. `unsure`: it hangs on
   * a reading or a turning that may belong to either of two days.
   */
  readonly state: 'reached' | 'missed' | 'notReached' | 'running' | 'unsure';
  /** Days that were warm enough, by what was recorded: the longest run of them, or all where they need no row. */
  readonly bestDays: number;
  readonly turnings: number;
  readonly missedDays: number;
  readonly recordIds: readonly string[];
}

type Day = 'warm' | 'cold' | 'missing';

/** What is made of a time that may lie on either side of midnight: as it was recorded, for the pile, or against it. */
type Hand = 'asRecorded' | 'kind' | 'harsh';

const daysFrom = (first: string, last: string): string[] =>
  Array.from({ length: daysBetween(first, last) + 1 }, (_, i) => addDays(first, i));

/** The days that a time may lie on; one, where it is sure. */
const daysOf = (season: Season, at: Moment, hand: Hand): readonly string[] =>
  hand === 'asRecorded' ? [dayOf(season, at.at)] : daysFrom(dayOf(season, at.from), dayOf(season, at.to));

/**
 * Every spot counts: the coldest must be warm enough and the hottest not too hot. A reading of either day counts on both
 * where the hand is with it, on neither where it is not.
 */
function dayState(season: Season, pile: Pile, rules: HeatRules, hand: Hand): (day: string) => Day {
  const states = new Map<string, Day>();
  for (const { at, data } of pile.temperatures) {
    const values = data.temperatures.map(({ value }) => numberIn(value, '[degF]') ?? -Infinity);
    const warm = values.every((f) => f >= rules.leastF && (rules.mostF === null || f <= rules.mostF));
    const days = daysOf(season, at, hand);
    if (days.length > 1 && warm !== (hand === 'kind')) continue;
    for (const day of days) states.set(day, warm && states.get(day) !== 'cold' ? 'warm' : 'cold');
  }
  return (day) => states.get(day) ?? 'missing';
}

/** How many turnings lie within days: where the day of one is not sure, by the hand. */
function turningsIn(season: Season, pile: Pile, hand: Hand): (within: (day: string) => boolean) => number {
  const turned = pile.turnings.map(({ at }) => daysOf(season, at, hand));
  return (within) => turned.filter((days) => (hand === 'kind' ? days.some(within) : days.every(within))).length;
}

/**
 * Days that need no row: as many as asked for, and the turnings from the first of them to the last. A day without a
 * reading between them may have been warm.
 */
function scattered(
  days: readonly string[],
  state: (day: string) => Day,
  turned: ReturnType<typeof turningsIn>,
  rules: HeatRules,
) {
  const warm = days.filter((day) => state(day) === 'warm');
  const [first = '', last = ''] = [warm[0], warm.at(-1)];
  const between = (day: string) => first <= day && day <= last;
  const perhaps = days.filter((day) => between(day) && state(day) !== 'cold');
  const turnings = turned(between);
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
function heatBy(season: Season, pile: Pile, rules: HeatRules, hand: Hand): Heat {
  const finished = pile.finishes[0];
  const recordIds = [pile.started.id, ...pile.temperatures.map(({ id }) => id), ...pile.turnings.map(({ id }) => id)];
  const first = dayOf(season, pile.started.at.at);
  const lastReading = pile.temperatures.at(-1);
  const end = dayOf(season, finished?.at.at ?? lastReading?.at.at ?? pile.started.at.at);
  const state = dayState(season, pile, rules, hand);
  const turned = turningsIn(season, pile, hand);
  const days = daysFrom(first, end);
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
    const turnings = turned((day) => window.includes(day));
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

/** The heat of a pile by its records. Where a time about midnight decides, it is not sure. */
export function heatOf(season: Season, pile: Pile, rules: HeatRules): Heat {
  const recorded = heatBy(season, pile, rules, 'asRecorded');
  if ([...pile.temperatures, ...pile.turnings].every(({ at }) => at.from === at.to)) return recorded;
  const states = (['kind', 'harsh'] as const).map((hand) => heatBy(season, pile, rules, hand).state);
  if (states.every((state) => state === recorded.state)) return recorded;
  // Of a pile that goes on, the days to come decide.
  return { ...recorded, state: states.includes('running') ? 'running' : 'unsure' };
}
