import type { Application, Batch, CurrentRecord, Harvest, Season } from '@furrowmark/domain';
import { countBefore } from './in-order.ts';

export type InstrumentReading = CurrentRecord<'batch.oxygenMeasured'> | CurrentRecord<'batch.chlorineMeasured'>;

/** Readings that name a thing, a batch or an instrument, in order of time. */
export const readingsNaming = (season: Season, id: string): InstrumentReading[] =>
  [...season.naming('batch.oxygenMeasured', id), ...season.naming('batch.chlorineMeasured', id)].sort(
    (a, b) => a.at.at - b.at.at || (a.id < b.id ? -1 : 1),
  );

/** Kinds of things that people tell apart by a code. */
export type CodedKind =
  'batch' | 'lot' | 'harvest' | 'source' | 'vessel' | 'equipment' | 'instrument' | 'field' | 'material';

const codedKinds: ReadonlySet<string> = new Set<CodedKind>([
  'batch',
  'lot',
  'harvest',
  'source',
  'vessel',
  'equipment',
  'instrument',
  'field',
  'material',
]);
const isCoded = (kind: string): kind is CodedKind => codedKinds.has(kind);

/** A batch by its first fill. */
interface Filled {
  readonly batch: Batch;
  readonly at: number;
}

/** Another thing with the same code. */
export interface Twin {
  readonly id: string;
  readonly recordId: string;
}

/**
 * What stands around a thing: applications and harvests of a ground, readings of an instrument, things with the
 * same code. Looked up by the ids that records name, and kept until something read for it changes.
 */
export class Reach {
  readonly #season: Season;
  /** Applications onto the same ground (a bed's reach its field, a field's its beds), in order of time. */
  readonly applicationsOn: (fieldId: string) => readonly Application[];
  /** Harvests of the same ground, in order of time. */
  readonly harvestsOn: (fieldId: string) => readonly Harvest[];
  /** Readings taken with an instrument, in order of time. */
  readonly readingsWith: (instrumentId: string) => readonly InstrumentReading[];
  /** Batches of a tank with an analysis: few, where all of them may be thousands. */
  readonly analysedIn: (vesselId: string) => readonly Batch[];
  readonly #filledIn: (vesselId: string) => readonly Filled[];
  readonly #codes: (kind: string) => ReadonlyMap<string, readonly Twin[]>;
  readonly #meter: (none: string) => boolean;

  constructor(season: Season) {
    this.#season = season;
    this.applicationsOn = season.view('applications on', (fieldId) => {
      const ground = season.sameGround(fieldId);
      const found = new Map<string, Application>();
      for (const id of ground) {
        for (const record of season.naming('application.made', id)) {
          const application = season.application(record.data.applicationId);
          if (application?.targets.some((target) => target.fieldId !== undefined && ground.has(target.fieldId))) {
            found.set(application.id, application);
          }
        }
      }
      return [...found.values()].sort((a, b) => a.started.at - b.started.at || (a.id < b.id ? -1 : 1));
    });
    this.harvestsOn = season.view('harvests on', (fieldId) => {
      const found = new Map<string, Harvest>();
      for (const id of season.sameGround(fieldId)) {
        for (const record of season.naming('harvest.made', id)) {
          const harvest = season.harvest(record.data.harvestId);
          if (harvest?.fieldId === id) found.set(harvest.id, harvest);
        }
      }
      return [...found.values()].sort((a, b) => a.at.at - b.at.at || (a.id < b.id ? -1 : 1));
    });
    this.readingsWith = season.view('readings with', (instrumentId) =>
      readingsNaming(season, instrumentId).filter(({ data }) => data.instrumentId === instrumentId),
    );
    this.analysedIn = season.view('analysed in', (vesselId) =>
      season.batchesIn(vesselId).filter(({ samples }) => samples.some(({ type }) => type === 'batch.analysed')),
    );
    this.#filledIn = season.view('filled in', (vesselId) =>
      season
        .batchesIn(vesselId)
        .flatMap((batch): Filled[] => (batch.fills[0] === undefined ? [] : [{ batch, at: batch.fills[0].started.at }]))
        .sort((a, b) => a.at - b.at),
    );
    this.#codes = season.view('codes', (kind) => (isCoded(kind) ? codesOf(season, kind) : new Map()));
    this.#meter = season.view(
      'oxygen meter',
      () =>
        season.instruments().some(({ registered: { measures } }) => measures.includes('dissolvedOxygen')) ||
        season.ofType('batch.oxygenMeasured').length > 0,
    );
  }

  /** The batch that was filled into a tank last before an instant; of several at one instant the first by id. */
  filledBefore(vesselId: string, instant: number): Batch | null {
    const filled = this.#filledIn(vesselId);
    const count = (until: number): number => countBefore(filled, until, ({ at }) => at);
    const at = filled[count(instant) - 1]?.at;
    return at === undefined ? null : (filled[count(at)]?.batch ?? null);
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

  /** Other things of a kind that carry the same code, with the records that describe them. */
  twins(kind: CodedKind, code: string, id: string): readonly Twin[] {
    return (this.#codes(kind).get(code) ?? []).filter((twin) => twin.id !== id);
  }

  /** Whether the operation has an oxygen meter: one is registered, or readings were recorded. */
  hasOxygenMeter(): boolean {
    return this.#meter('');
  }
}

const reaches = new WeakMap<Season, Reach>();

/** What stands around the things of a season; what changed is looked up anew. */
export function reachOf(season: Season): Reach {
  let reach = reaches.get(season);
  if (reach === undefined) {
    reach = new Reach(season);
    reaches.set(season, reach);
  }
  return reach;
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
