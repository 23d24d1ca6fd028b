import type { AirInterruption } from '../facts/types.ts';
import type { Instant, Moment } from '../facts/time.ts';
import { comparePlaces } from '../order.ts';
import { rankOf } from '../records/catalogue.ts';
import type { CurrentRecord } from '../records/record.ts';
import { airStopMoment, minutesBetween } from './moments.ts';

/** Air going on or off in the tank as a whole; the second of two blowers changes nothing. */
export interface AirChange {
  readonly running: boolean;
  readonly at: Moment;
  readonly record: CurrentRecord<'batch.airStarted'> | CurrentRecord<'batch.airStopped'>;
}

/**
 * The changes of a batch's air. With several blowers the air is off when the last of them is; a stop that names none,
 * or one not known to run, is taken as the air being off. A stop without a start before it: the air had been on.
 */
export function airChanges(
  records: readonly (CurrentRecord<'batch.airStarted'> | CurrentRecord<'batch.airStopped'>)[],
): AirChange[] {
  const changes: AirChange[] = [];
  const running = new Set<string>();
  const moments = records.map((record) => {
    const at = record.type === 'batch.airStarted' ? record.at : airStopMoment(record);
    return { record, at, instant: at.at, rank: rankOf(record.type), id: record.id };
  });
  for (const { record, at } of moments.sort(comparePlaces)) {
    const blower = record.data.blowerId ?? '';
    const wasRunning = running.size > 0 || (changes.length === 0 && record.type === 'batch.airStopped');
    if (record.type === 'batch.airStarted') running.add(blower);
    else if (blower !== '' && running.has(blower)) running.delete(blower);
    else running.clear();
    const isRunning = running.size > 0;
    if (isRunning === wasRunning) continue;
    changes.push({ running: isRunning, at, record });
  }
  return changes;
}

/** Picks one instant of a moment: as recorded, the earliest, the latest. */
type Reading = (moment: Moment) => Instant;

const scenarios = (stops: Reading, starts: Reading) => (change: AirChange) =>
  (change.running ? starts : stops)(change.at);
const recorded = scenarios(
  (m) => m.at,
  (m) => m.at,
);
/** The least air there can have been: stopped early, started late. */
const leastAir = scenarios(
  (m) => m.from,
  (m) => m.to,
);
/** The most air: stopped late, started early. */
const mostAir = scenarios(
  (m) => m.to,
  (m) => m.from,
);

interface AirAt {
  readonly running: boolean;
  /** Since when it has been so; null where no change came before. */
  readonly since: AirChange | null;
}

function airAt(changes: readonly AirChange[], when: (change: AirChange) => Instant, instant: Instant): AirAt | null {
  let since: AirChange | null = null;
  for (const change of changes) if (when(change) <= instant) since = change;
  if (since !== null) return { running: since.running, since };
  const first = changes[0];
  // Before a first recorded stop the air was on; before a first start, or without any record, there was none.
  return first !== undefined && !first.running ? { running: true, since: null } : null;
}

/** *The* air off before a moment: the stop that no start followed before then; null while aerated or never aerated. */
export function airOffBefore(changes: readonly AirChange[], moment: Moment): AirChange | null {
  const air = airAt(changes, recorded, moment.at);
  return air === null || air.running ? null : air.since;
}

/**
 * The tea's last air at a draw: *the* air off, or the draw itself while the tank was aerated. Its bounds come from the
 * least and the most air that the uncertain times allow. null where no air is known of.
 */
export function lastAirAt(changes: readonly AirChange[], draw: Moment): Moment | null {
  const pick = (when: (change: AirChange) => Instant, instant: Instant): Instant | null => {
    const air = airAt(changes, when, instant);
    if (air === null) return null;
    return air.running || air.since === null ? instant : when(air.since);
  };
  const at = pick(recorded, draw.at);
  if (at === null) return null;
  return {
    at,
    from: Math.min(at, pick(leastAir, draw.from) ?? at),
    to: Math.max(at, pick(mostAir, draw.to) ?? at),
  };
}

/** Each time the air went off, with when it came on again. */
export function interruptionsIn(
  changes: readonly AirChange[],
  foodFrom: Moment | null,
  soundChecks: readonly Moment[],
  draws: readonly Moment[],
): AirInterruption[] {
  return changes.flatMap((stop, i) => {
    if (stop.running) return [];
    const start = changes[i + 1] ?? null;
    const restarted = start?.at ?? null;
    const cause = stop.record.type === 'batch.airStopped' ? stop.record.data.cause : undefined;
    const nextDraw = restarted === null ? undefined : draws.find((draw) => draw.at >= restarted.at);
    return [
      {
        stopped: stop.at,
        restarted,
        minutes: restarted && minutesBetween(stop.at, restarted),
        ...(cause === undefined ? {} : { cause }),
        duringBrew: foodFrom !== null && (restarted === null || restarted.at > foodFrom.at),
        checkedAfter: restarted !== null && isChecked(soundChecks, restarted, nextDraw ?? null),
        recordIds: [stop.record.id, ...(start === null ? [] : [start.record.id])],
      },
    ];
  });
}

/** Whether a reading or sound check was made after the restart and no later than `until`. */
export function isChecked(checks: readonly Moment[], restarted: Moment, until: Moment | null): boolean {
  return checks.some((check) => check.at >= restarted.at && (until === null || check.at <= until.at));
}

/**
 * Uninterrupted air that a tank had between the end of a fill and the first ingredient, in minutes: the last stretch of
 * it, as an interruption begins the count anew; air that began before the fill ended counts from its end. A stretch
 * that ended shortly before the ingredient went in counts to its end. null where a stop without a start leaves it open.
 */
export function airBetween(changes: readonly AirChange[], filled: Moment, ingredient: Moment) {
  const length = (when: (change: AirChange) => Instant, from: Instant, to: Instant): number | null => {
    const before = changes.filter((change) => when(change) <= to);
    const last = before.at(-1);
    if (last === undefined) return changes[0]?.running === false ? null : 0;
    const start = last.running ? last : before.at(-2);
    if (start === undefined) return null;
    const end = last.running ? to : when(last);
    return Math.max(0, end - Math.max(from, when(start))) / 60_000;
  };
  const value = length(recorded, filled.at, ingredient.at);
  if (value === null) return null;
  return {
    value,
    least: Math.min(value, length(leastAir, filled.to, ingredient.from) ?? value),
    most: Math.max(value, length(mostAir, filled.from, ingredient.to) ?? value),
  };
}
