import type { Application, CurrentRecord, Harvest, Season } from '@furrowmark/domain';

export type InstrumentReading = CurrentRecord<'batch.oxygenMeasured'> | CurrentRecord<'batch.chlorineMeasured'>;

/** Kinds of things that people tell apart by a code. */
export type CodedKind =
  'batch' | 'lot' | 'harvest' | 'source' | 'vessel' | 'equipment' | 'instrument' | 'field' | 'material';

/** Another thing with the same code. */
export interface Twin {
  readonly id: string;
  readonly recordId: string;
}

/**
 * What stands around a thing: applications and harvests of a ground, readings of an instrument, things with the
 * same code. Looked up by the ids that records name, and kept until the season changes.
 */
export class Reach {
  readonly #season: Season;
  readonly #applications = new Map<string, readonly Application[]>();
  readonly #harvests = new Map<string, readonly Harvest[]>();
  readonly #readings = new Map<string, readonly InstrumentReading[]>();
  readonly #codes = new Map<string, ReadonlyMap<string, readonly Twin[]>>();
  #meter: boolean | null = null;

  constructor(season: Season) {
    this.#season = season;
  }

  /** Applications onto the same ground (a bed's reach its field, a field's its beds), in order of time. */
  applicationsOn(fieldId: string): readonly Application[] {
    return kept(this.#applications, fieldId, () => {
      const ground = this.#season.sameGround(fieldId);
      const found = new Map<string, Application>();
      for (const id of ground) {
        for (const record of this.#season.naming('application.made', id)) {
          const application = this.#season.application(record.data.applicationId);
          if (application?.targets.some((target) => target.fieldId !== undefined && ground.has(target.fieldId))) {
            found.set(application.id, application);
          }
        }
      }
      return [...found.values()].sort((a, b) => a.started.at - b.started.at || (a.id < b.id ? -1 : 1));
    });
  }

  /** Harvests of the same ground, in order of time. */
  harvestsOn(fieldId: string): readonly Harvest[] {
    return kept(this.#harvests, fieldId, () => {
      const found = new Map<string, Harvest>();
      for (const id of this.#season.sameGround(fieldId)) {
        for (const record of this.#season.naming('harvest.made', id)) {
          const harvest = this.#season.harvest(record.data.harvestId);
          if (harvest?.fieldId === id) found.set(harvest.id, harvest);
        }
      }
      return [...found.values()].sort((a, b) => a.at.at - b.at.at || (a.id < b.id ? -1 : 1));
    });
  }

  /** Whether a harvest may hold what an application put on: same ground, made after its start, no other planting named. */
  reaches(application: Application, harvest: Harvest): boolean {
    if (harvest.at.to <= application.started.from) return false;
    const ground = this.#season.sameGround(harvest.fieldId);
    return application.targets.some(
      ({ fieldId, plantingIds }) =>
        fieldId !== undefined &&
        ground.has(fieldId) &&
        (harvest.plantingId === null || plantingIds.length === 0 || plantingIds.includes(harvest.plantingId)),
    );
  }

  /** Harvests that these applications may have reached, each once. */
  harvestsAfter(applications: readonly Application[]): readonly Harvest[] {
    const found = new Map<string, Harvest>();
    for (const application of applications) {
      for (const { fieldId } of application.targets) {
        if (fieldId === undefined) continue;
        for (const harvest of this.harvestsOn(fieldId)) {
          if (this.reaches(application, harvest)) found.set(harvest.id, harvest);
        }
      }
    }
    return [...found.values()];
  }

  /** Readings taken with an instrument, in order of time. */
  readingsWith(instrumentId: string): readonly InstrumentReading[] {
    return kept(this.#readings, instrumentId, () =>
      [
        ...this.#season.naming('batch.oxygenMeasured', instrumentId),
        ...this.#season.naming('batch.chlorineMeasured', instrumentId),
      ]
        .filter((record) => record.data.instrumentId === instrumentId)
        .sort((a, b) => a.at.at - b.at.at || (a.id < b.id ? -1 : 1)),
    );
  }

  /** Other things of a kind that carry the same code, with the records that describe them. */
  twins(kind: CodedKind, code: string, id: string): readonly Twin[] {
    const codes = kept(this.#codes, kind, () => codesOf(this.#season, kind));
    return (codes.get(code) ?? []).filter((twin) => twin.id !== id);
  }

  /** Whether the operation has an oxygen meter: one is registered, or readings were recorded. */
  hasOxygenMeter(): boolean {
    this.#meter ??=
      this.#season.instruments().some(({ registered: { measures } }) => measures.includes('dissolvedOxygen')) ||
      this.#season.ofType('batch.oxygenMeasured').length > 0;
    return this.#meter;
  }
}

const reaches = new WeakMap<Season, { readonly version: number; readonly reach: Reach }>();

/** What stands around the things of a season, looked up anew only after it changed. */
export function reachOf(season: Season): Reach {
  const before = reaches.get(season);
  if (before !== undefined && before.version === season.version) return before.reach;
  const reach = new Reach(season);
  reaches.set(season, { version: season.version, reach });
  return reach;
}

function kept<T>(map: Map<string, T>, key: string, compute: () => T): T {
  let value = map.get(key);
  if (value === undefined) {
    value = compute();
    map.set(key, value);
  }
  return value;
}

/** Of every code, the things that carry it, each once. */
function codesOf(season: Season, kind: CodedKind): ReadonlyMap<string, readonly Twin[]> {
  const found = new Map<string, Twin[]>();
  const note = (code: string, id: string, recordId: string): void => {
    const twins = found.get(code);
    if (twins === undefined) found.set(code, [{ id, recordId }]);
    else if (!twins.some((twin) => twin.id === id)) twins.push({ id, recordId });
  };
  if (kind === 'batch') {
    for (const { id, data } of season.ofType('batch.opened')) note(data.code, data.batchId, id);
    for (const { id, data } of season.ofType('tea.received')) note(data.code, data.batchId, id);
  } else if (kind === 'lot') {
    for (const { id, data } of season.ofType('lot.received')) note(data.code, data.lotId, id);
    for (const { id, data } of season.ofType('pile.finished')) note(data.code, data.lotId, id);
  } else if (kind === 'harvest') {
    for (const { id, data } of season.ofType('harvest.made')) note(data.code, data.harvestId, id);
  } else {
    for (const thing of registersOf(season, kind)) note(thing.registered.code, thing.id, thing.recordIds[0] ?? '');
  }
  return found;
}

/** Things still in use: a code may pass from a retired thing to its successor. */
function registersOf(season: Season, kind: Exclude<CodedKind, 'batch' | 'lot' | 'harvest'>) {
  const all = {
    source: () => season.sources(),
    vessel: () => season.vessels(),
    equipment: () => season.allEquipment(),
    instrument: () => season.instruments(),
    field: () => season.fields(),
    material: () => season.materials(),
  }[kind]();
  return all.filter((thing) => thing.retired === undefined);
}
