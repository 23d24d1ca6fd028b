import type { Batch, Season } from '@furrowmark/domain';
import { reachOf, type Reach } from '../judging/reach.ts';
import type { Subject, SubjectKind } from '../outcome.ts';
import type { FactOf } from './facts.ts';
import { drawsOf, subjectKinds, subjectOf, type Subjects } from './subjects.ts';

/**
 * What bears on a batch: itself, its draws, applications, lots (tank mix included) and the piles they came from,
 * water, vessel, instruments, equipment, fields, and the harvests its tea may have reached.
 */
export function subjectsOfBatch(season: Season, batch: Batch, reach: Reach): Subjects {
  const applications = season.applicationsOf(batch.id);
  const lotIds = new Set<string>(batch.ingredients.map((ingredient) => ingredient.lotId));
  const fieldIds = new Set<string>();
  const equipmentIds = new Set<string>();
  const sourceIds = new Set<string>(batch.fills.map((fill) => fill.sourceId));
  for (const { record, targets } of applications) {
    for (const { lotId } of record.data.tankMix ?? []) lotIds.add(lotId);
    for (const target of targets) if (target.fieldId !== undefined) fieldIds.add(target.fieldId);
    if (record.data.equipmentId !== undefined) equipmentIds.add(record.data.equipmentId);
    if (record.data.dilutionSourceId !== undefined) sourceIds.add(record.data.dilutionSourceId);
  }
  const instrumentIds = new Set<string>();
  for (const { instrumentId } of batch.oxygen) if (instrumentId !== undefined) instrumentIds.add(instrumentId);
  for (const { data } of batch.chlorine) if (data.instrumentId !== undefined) instrumentIds.add(data.instrumentId);
  const lots = known(lotIds, (id) => season.lot(id));
  const piles = new Set<string>();
  for (const lot of lots) if (lot.origin.kind === 'pile') piles.add(lot.origin.pileId);

  return {
    batch: [batch],
    draw: drawsOf(batch),
    application: applications,
    lot: lots,
    pile: known(piles, (id) => season.pile(id)),
    source: known(sourceIds, (id) => season.source(id)),
    vessel: batch.vesselId === null ? [] : known([batch.vesselId], (id) => season.vessel(id)),
    instrument: known(instrumentIds, (id) => season.instrument(id)),
    equipment: known(equipmentIds, (id) => season.equipment(id)),
    field: known(fieldIds, (id) => season.field(id)),
    harvest: reach.harvestsAfter(applications),
  };
}

function known<T>(ids: Iterable<string>, find: (id: string) => T | undefined): readonly T[] {
  const all: T[] = [];
  for (const id of ids) {
    const fact = find(id);
    if (fact !== undefined) all.push(fact);
  }
  return all;
}

/** The same as kinds and ids: what has to be judged anew when a batch changed. */
export function batchSubjects(season: Season, batchId: string): readonly Subject[] {
  const batch = season.batch(batchId);
  if (batch === undefined) return [];
  const subjects = subjectsOfBatch(season, batch, reachOf(season));
  const all: Subject[] = [];
  for (const kind of subjectKinds) collect(season, kind, subjects[kind] ?? [], all);
  return all;
}

function collect<K extends SubjectKind>(season: Season, kind: K, facts: readonly FactOf[K][], into: Subject[]): void {
  for (const fact of facts) into.push(subjectOf(season, kind, fact));
}
