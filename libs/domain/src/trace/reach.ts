import type { Application, Harvest, Planting, Season } from '../facts/types.ts';
import type { TraceEdge, TraceRef } from './types.ts';

type Target = Application['targets'][number];

export interface ReachedHarvest {
  readonly harvest: Harvest;
  /** The planting it came through, where it names one; else the ground. */
  readonly through: TraceRef;
}

const day = 86_400_000;

/**
 * The plantings that an application reached through one target: the one it names, else those standing there at its
 * start; and those transplanted from them later.
 */
export function plantingsReached(season: Season, application: Application, target: Target): Planting[] {
  const found = new Map<string, Planting>();
  for (const id of target.plantingIds) {
    const planting = season.planting(id);
    if (planting !== undefined) found.set(id, planting);
  }
  for (const planting of found.values()) {
    for (const transplant of season.plantings()) {
      if (transplant.started.data.fromPlantingId !== planting.id) continue;
      // A day of planting is only a day: transplants of the application's own day count.
      if (transplant.standsFrom + day > application.started.from) found.set(transplant.id, transplant);
    }
  }
  return [...found.values()];
}

/** Where the planting of a transplant came from, as steps between the plantings reached. */
export function transplantSteps(plantings: readonly Planting[]): TraceEdge[] {
  const ids = new Set(plantings.map((each) => each.id));
  return plantings.flatMap(({ id, started }): TraceEdge[] => {
    const from = started.data.fromPlantingId;
    if (from === undefined || !ids.has(from)) return [];
    return [{ from: { kind: 'planting', id: from }, to: { kind: 'planting', id }, recordId: started.id }];
  });
}

/**
 * The harvests that what came onto a place may have reached: of its ground, or of a planting that came of what stood there.
 * A season has thousands of them, a place a few.
 */
export class HarvestsNear {
  readonly #season: Season;
  readonly #ofField: ReadonlyMap<string, readonly Placed[]>;
  readonly #ofPlanting: ReadonlyMap<string | null, readonly Placed[]>;

  constructor(season: Season) {
    this.#season = season;
    const placed = season.harvests().map((harvest, place): Placed => ({ harvest, place }));
    this.#ofField = Map.groupBy(placed, ({ harvest }) => String(harvest.fieldId));
    this.#ofPlanting = Map.groupBy(placed, ({ harvest }) => harvest.plantingId);
  }

  /** In the season's order. */
  of(fieldId: string, plantings: readonly Planting[]): readonly Harvest[] {
    const found = new Set<Placed>();
    for (const ground of this.#season.sameGround(fieldId))
      for (const each of this.#ofField.get(ground) ?? []) found.add(each);
    for (const { id } of plantings) for (const each of this.#ofPlanting.get(id) ?? []) found.add(each);
    return [...found].sort((a, b) => a.place - b.place).map(({ harvest }) => harvest);
  }
}

interface Placed {
  readonly harvest: Harvest;
  readonly place: number;
}

/**
 * How a harvest was reached by an application through one target; null where it was not. It is reached when it was made
 * after the application started, is of the same ground, and names no other planting than those reached. Where none of
 * the plantings reached stands on the harvest's own ground (bare soil, or another bed), no planting shields it.
 */
export function harvestReached(
  season: Season,
  application: Application,
  target: Target,
  plantings: readonly Planting[],
  harvest: Harvest,
): TraceRef | null {
  const { fieldId } = target;
  // An uncertain time may lie on either side: then it counts as reached.
  if (harvest.at.to <= application.started.from) return null;
  const named = harvest.plantingId;
  const transplanted = plantings.find((each) => each.id === named && !target.plantingIds.includes(each.id));
  if (transplanted !== undefined) return { kind: 'planting', id: transplanted.id };
  if (fieldId === undefined || !season.sameGround(fieldId).has(harvest.fieldId)) return null;
  const ground: TraceRef = { kind: 'field', id: fieldId };
  if (named === null) return ground;
  if (target.plantingIds.some((id) => id === named)) return { kind: 'planting', id: named };
  if (target.plantingNamed) return null;
  const own = season.sameGround(harvest.fieldId);
  return plantings.some((each) => own.has(each.started.data.fieldId)) ? null : ground;
}
