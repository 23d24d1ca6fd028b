import type { Batch, Season } from '@furrowmark/domain';
import type { Subject, SubjectKind } from '../outcome.ts';
import type { FactOf } from './facts.ts';

/** The operation's id: of its description, else of any record; null in an empty log. */
export function operationIdOf(season: Season): string | null {
  if (season.operation !== null) return season.operation.id;
  for (const record of season.records()) return record.operationId;
  return null;
}

/** Subjects to judge, by kind. */
export type Subjects = { readonly [K in SubjectKind]?: readonly FactOf[K][] };

/** Everything the records tell of. */
export function everySubject(season: Season): Subjects {
  const batches = season.batches();
  const id = operationIdOf(season);
  return {
    batch: batches,
    draw: batches.flatMap(drawsOf),
    lot: season.lots(),
    pile: season.piles(),
    source: season.sources(),
    vessel: season.vessels(),
    equipment: season.allEquipment(),
    instrument: season.instruments(),
    application: season.applications(),
    field: season.fields(),
    planting: season.plantings(),
    harvest: season.harvests(),
    person: season.people(),
    material: season.materials(),
    operation: id === null ? [] : [{ id, season }],
  };
}

const oneOf: { readonly [K in SubjectKind]: (season: Season, id: string) => FactOf[K] | undefined } = {
  batch: (season, id) => season.batch(id),
  draw: (season, id) => season.draw(id),
  lot: (season, id) => season.lot(id),
  pile: (season, id) => season.pile(id),
  source: (season, id) => season.source(id),
  vessel: (season, id) => season.vessel(id),
  equipment: (season, id) => season.equipment(id),
  instrument: (season, id) => season.instrument(id),
  application: (season, id) => season.application(id),
  field: (season, id) => season.field(id),
  planting: (season, id) => season.planting(id),
  harvest: (season, id) => season.harvest(id),
  person: (season, id) => season.person(id),
  material: (season, id) => season.material(id),
  operation: (season, id) => ({ id, season }),
};

export const drawsOf = (batch: Batch): readonly FactOf['draw'][] => batch.draws.map((draw) => ({ batch, draw }));

/** One subject by its id. */
export const factOf = <K extends SubjectKind>(season: Season, kind: K, id: string): FactOf[K] | undefined =>
  oneOf[kind](season, id);

const codeOf: { readonly [K in SubjectKind]: (fact: FactOf[K], season: Season) => string } = {
  batch: (batch) => batch.code,
  draw: ({ batch, draw }, season) => {
    const where = draw.applicationId === null ? null : placeOf(season, draw.applicationId);
    return where === null ? batch.code : `${batch.code} · ${where}`;
  },
  lot: (lot) => lot.code,
  pile: (pile) => pile.started.data.code,
  source: (source) => source.registered.code,
  vessel: (vessel) => vessel.registered.code,
  equipment: (equipment) => equipment.registered.code,
  instrument: (instrument) => instrument.registered.code,
  application: (application, season) => {
    const place = placeOf(season, application.id);
    return place === null || place === application.code ? application.code : `${application.code} · ${place}`;
  },
  field: (field) => field.registered.code,
  planting: (planting) => planting.started.data.crop,
  harvest: (harvest) => harvest.code,
  person: (person) => ('name' in person.registered.personal ? person.registered.personal.name : shortId(person.id)),
  material: (material) => material.registered.code,
  operation: (operation) => operation.season.operation?.registered.name ?? shortId(operation.id),
};

const idOf: { readonly [K in SubjectKind]: (fact: FactOf[K]) => string } = {
  batch: (batch) => batch.id,
  draw: ({ draw }) => draw.id,
  lot: (lot) => lot.id,
  pile: (pile) => pile.id,
  source: (source) => source.id,
  vessel: (vessel) => vessel.id,
  equipment: (equipment) => equipment.id,
  instrument: (instrument) => instrument.id,
  application: (application) => application.id,
  field: (field) => field.id,
  planting: (planting) => planting.id,
  harvest: (harvest) => harvest.id,
  person: (person) => person.id,
  material: (material) => material.id,
  operation: (operation) => operation.id,
};

/** Every kind of subject that has an id of its own in the records. */
export const subjectKinds: readonly Exclude<SubjectKind, 'operation'>[] = [
  'batch',
  'draw',
  'lot',
  'pile',
  'source',
  'vessel',
  'equipment',
  'instrument',
  'application',
  'field',
  'planting',
  'harvest',
  'person',
  'material',
];

/** What an id names, as subjects to judge: usually one thing, none where it names no subject. */
export function anySubject(
  season: Season,
  id: string,
): readonly { readonly kind: SubjectKind; readonly subjects: Subjects }[] {
  return subjectKinds.flatMap((kind) => {
    const subjects = singly(season, kind, id);
    return subjects === null ? [] : [{ kind, subjects }];
  });
}

function singly<K extends SubjectKind>(season: Season, kind: K, id: string): Subjects | null {
  const fact = factOf(season, kind, id);
  return fact === undefined ? null : { [kind]: [fact] };
}

/** Two sets of subjects as one. */
export const together = (a: Subjects, b: Subjects): Subjects => ({
  batch: [...(a.batch ?? []), ...(b.batch ?? [])],
  draw: [...(a.draw ?? []), ...(b.draw ?? [])],
  lot: [...(a.lot ?? []), ...(b.lot ?? [])],
  pile: [...(a.pile ?? []), ...(b.pile ?? [])],
  source: [...(a.source ?? []), ...(b.source ?? [])],
  vessel: [...(a.vessel ?? []), ...(b.vessel ?? [])],
  equipment: [...(a.equipment ?? []), ...(b.equipment ?? [])],
  instrument: [...(a.instrument ?? []), ...(b.instrument ?? [])],
  application: [...(a.application ?? []), ...(b.application ?? [])],
  field: [...(a.field ?? []), ...(b.field ?? [])],
  planting: [...(a.planting ?? []), ...(b.planting ?? [])],
  harvest: [...(a.harvest ?? []), ...(b.harvest ?? [])],
  person: [...(a.person ?? []), ...(b.person ?? [])],
  material: [...(a.material ?? []), ...(b.material ?? [])],
  operation: [...(a.operation ?? []), ...(b.operation ?? [])],
});

/** The subject as an outcome names it. */
export const subjectOf = <K extends SubjectKind>(season: Season, kind: K, fact: FactOf[K]): Subject => ({
  kind,
  id: idOf[kind](fact),
  code: codeOf[kind](fact, season),
});

export const factId = <K extends SubjectKind>(kind: K, fact: FactOf[K]): string => idOf[kind](fact);

/** Where an application went: its fields' codes, or the wetted lots'; null where none is known. */
function placeOf(season: Season, applicationId: string): string | null {
  const targets = season.application(applicationId)?.targets ?? [];
  const codes = targets.flatMap(({ fieldId, lotId }) => {
    const code = fieldId !== undefined ? season.field(fieldId)?.registered.code : season.lot(lotId ?? '')?.code;
    return code === undefined ? [] : [code];
  });
  const [first, ...rest] = [...new Set(codes)];
  return first === undefined ? null : rest.length === 0 ? first : `${first} +${rest.length}`;
}

const shortId = (id: string): string => id.slice(0, 8);
