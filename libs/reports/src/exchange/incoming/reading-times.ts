import { localText, type Instant } from '@furrowmark/domain';
import type { SheetRow } from './sheet.ts';
import type { CellProblem } from './types.ts';

/** A reading as the file has it; `at` null where it has a problem or lies outside what was asked for. */
export interface Taken {
  readonly row: SheetRow;
  readonly problems: readonly CellProblem[];
  readonly at: Instant | null;
  readonly oxygen: number;
  readonly temperature: number | null;
  readonly offsetMinutes: number | null;
}

export interface Thinned {
  readonly kept: ReadonlySet<Taken>;
  /** How many say the same as another of the same time. */
  readonly repeated: number;
  /** Those that say something else than an earlier line of the same time, with that line. */
  readonly rivals: ReadonlyMap<Taken, number>;
}

/**
 * Which readings are taken: each time once; where `everyMinutes` is given, of each such stretch the one with the lowest
 * oxygen, so that nothing below a limit is lost by taking fewer.
 */
export function thinned(all: readonly Taken[], everyMinutes: number | undefined): Thinned {
  const byTime = new Map<Instant, Taken>();
  const rivals = new Map<Taken, number>();
  let repeated = 0;
  for (const taken of all) {
    if (taken.at === null) continue;
    const before = byTime.get(taken.at);
    if (before === undefined) byTime.set(taken.at, taken);
    else if (before.oxygen === taken.oxygen && before.temperature === taken.temperature) repeated += 1;
    else rivals.set(taken, before.row.line);
  }
  const once = [...byTime.values()];
  if (everyMinutes === undefined) return { kept: new Set(once), repeated, rivals };
  const lowest = new Map<number, Taken>();
  for (const taken of once) {
    const stretch = Math.floor((taken.at ?? 0) / (everyMinutes * 60_000));
    const best = lowest.get(stretch);
    if (best === undefined || taken.oxygen < best.oxygen) lowest.set(stretch, taken);
  }
  return { kept: new Set(lowest.values()), repeated, rivals };
}

const most = 20;

/** Gaps between the readings taken: longer than two and a half times the usual distance between them. In words. */
export function gapsIn(kept: ReadonlySet<Taken>, zone: string): string[] {
  const times = [...kept].flatMap(({ at }) => (at === null ? [] : [at])).sort((a, b) => a - b);
  const distances = times.slice(1).map((at, i) => at - (times[i] ?? at));
  const usual = distances.toSorted((a, b) => a - b)[Math.floor((distances.length - 1) / 2)];
  if (usual === undefined || distances.length < 3) return [];
  const gaps = distances.flatMap((distance, i) => {
    const [from, to] = [times[i], times[i + 1]];
    if (distance <= 2.5 * usual || from === undefined || to === undefined) return [];
    return [
      `No reading from ${localText(from, zone)} to ${localText(to, zone)} (${lengthOf(distance)}); usually there is one every ${lengthOf(usual)}.`,
    ];
  });
  return gaps.length > most ? [...gaps.slice(0, most), `${gaps.length - most} further gaps.`] : gaps;
}

function lengthOf(milliseconds: number): string {
  const minutes = Math.round(milliseconds / 60_000);
  if (minutes === 0) return `${Math.round(milliseconds / 1000)} s`;
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  return [...(hours === 0 ? [] : [`${hours} h`]), ...(rest === 0 ? [] : [`${rest} min`])].join(' ');
}
