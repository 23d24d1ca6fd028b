import type { Equipment, Field, Instrument, Material, Person, Registered, Source, Vessel } from '../facts/types.ts';
import type { Moment } from '../facts/time.ts';
import type { DataOf, OperationId, RecordId, MeasureId } from '../records/index.ts';
import type { Store } from './store.ts';

interface Entry<Data> {
  readonly id: RecordId;
  readonly at: Moment;
  readonly data: Data;
}

/**
 * A registered thing from its records, each list in order. Of several registrations of one id the last in order is
 * shown, the others are its rivals. undefined while there is none.
 */
function thing<Id extends string, Data>(
  id: (data: Data) => Id,
  registrations: readonly Entry<Data>[],
  revisions: readonly Entry<Partial<Data>>[],
  retirements: readonly Entry<{ readonly reason: string }>[],
): Registered<Id, Data> | undefined {
  const shown = registrations.at(-1);
  if (shown === undefined) return undefined;
  const retired = retirements.at(-1);
  return {
    id: id(shown.data),
    registered: shown.data,
    revisions: revisions.map((each) => ({ from: each.at.at, changes: each.data, recordId: each.id })),
    ...(retired === undefined
      ? {}
      : { retired: { at: retired.at.at, reason: retired.data.reason, recordId: retired.id } }),
    recordIds: [...registrations, ...revisions, ...(retired === undefined ? [] : [retired])].map((each) => each.id),
    rivals: registrations.slice(0, -1).map((each) => each.id),
  };
}

/** The kept views of everything that is registered. */
export function registers(store: Store) {
  const { memo } = store;

  /** The source by itself: a brew's fills are folded anew where it was revised, not with every test of its water. */
  const sourceItself = memo.view('sourceItself', (id) =>
    thing(
      (data) => data.sourceId,
      store.naming('source.registered', id).filter((each) => each.data.sourceId === id),
      store.naming('source.revised', id).filter((each) => each.data.sourceId === id),
      store.naming('source.retired', id),
    ),
  );

  const source = memo.view('source', (id): Source | undefined => {
    const found = sourceItself(id);
    return (
      found && {
        ...found,
        tests: store.naming('source.tested', id).filter((each) => each.data.sourceId === id),
        documents: store.naming('source.documented', id).filter((each) => each.data.sourceId === id),
        deliveries: store.naming('source.delivered', id).filter((each) => each.data.sourceId === id),
      }
    );
  });

  const vessel = memo.view('vessel', (id): Vessel | undefined => {
    const found = thing(
      (data) => data.vesselId,
      store.naming('vessel.registered', id).filter((each) => each.data.vesselId === id),
      store.naming('vessel.revised', id).filter((each) => each.data.vesselId === id),
      store.naming('vessel.retired', id),
    );
    return found && { ...found, cleanings: store.naming('vessel.cleaned', id).filter((e) => e.data.vesselId === id) };
  });

  const equipment = memo.view('equipment', (id): Equipment | undefined => {
    const found = thing(
      (data) => data.equipmentId,
      store.naming('equipment.registered', id),
      store.naming('equipment.revised', id),
      store.naming('equipment.retired', id),
    );
    return (
      found && {
        ...found,
        cleanings: store.naming('equipment.cleaned', id).filter((each) => each.data.equipmentId === id),
        calibrations: store.naming('equipment.calibrated', id),
        uses: store.naming('equipment.used', id),
      }
    );
  });

  const instrument = memo.view('instrument', (id): Instrument | undefined => {
    const found = thing(
      (data) => data.instrumentId,
      store.naming('instrument.registered', id),
      store.naming('instrument.revised', id),
      store.naming('instrument.retired', id),
    );
    return (
      found && {
        ...found,
        calibrations: store.naming('instrument.calibrated', id),
        checks: store.naming('instrument.checked', id),
      }
    );
  });

  /** The material by itself, without what others approved and wrote about it. */
  const materialItself = memo.view('materialItself', (id) =>
    thing(
      (data) => data.materialId,
      store.naming('material.registered', id),
      store.naming('material.revised', id),
      store.naming('material.retired', id),
    ),
  );

  const material = memo.view('material', (id): Material | undefined => {
    const found = materialItself(id);
    return (
      found && {
        ...found,
        approvals: store.naming('material.approved', id).filter((each) => each.data.materialId === id),
        withdrawals: store.naming('material.withdrawn', id),
        documents: store.naming('material.documented', id).filter((each) => each.data.materialId === id),
      }
    );
  });

  const person = memo.view('person', (id): Person | undefined => {
    const found = thing(
      (data) => data.personId,
      store.naming('person.registered', id),
      store.naming('person.revised', id),
      store.naming('person.retired', id),
    );
    const erased = store.naming('person.erased', id).at(-1);
    return (
      found && {
        ...found,
        trainings: store.naming('person.trained', id).filter((each) => each.data.personId === id),
        ...(erased === undefined ? {} : { erased }),
      }
    );
  });

  const field = memo.view('field', (id): Field | undefined => {
    const found = thing(
      (data) => data.fieldId,
      store.naming('field.registered', id).filter((each) => each.data.fieldId === id),
      store.naming('field.revised', id).filter((each) => each.data.fieldId === id),
      store.naming('field.retired', id),
    );
    return found && { ...found, exposures: store.naming('field.exposed', id) };
  });

  const measure = memo.view('measure', (id): Registered<MeasureId, DataOf<'measure.registered'>> | undefined =>
    thing(
      (data) => data.measureId,
      store.naming('measure.registered', id).filter((each) => each.data.measureId === id),
      store.naming('measure.revised', id).filter((each) => each.data.measureId === id),
      store.naming('measure.retired', id),
    ),
  );

  /** There is one operation per log; the argument is only the view's key. */
  const operation = memo.view('operation', (): Registered<OperationId, DataOf<'operation.described'>> | null => {
    const described = store.ofType('operation.described');
    const shown = described.at(-1);
    if (shown === undefined) return null;
    return thing(() => shown.operationId, described, store.ofType('operation.revised'), []) ?? null;
  });

  return {
    source,
    sourceItself,
    vessel,
    equipment,
    instrument,
    material,
    materialItself,
    person,
    field,
    measure,
    operation: () => operation(''),
    sources: () => each(store.ofType('source.registered'), (data) => data.sourceId, source),
    vessels: () => each(store.ofType('vessel.registered'), (data) => data.vesselId, vessel),
    allEquipment: () => each(store.ofType('equipment.registered'), (data) => data.equipmentId, equipment),
    instruments: () => each(store.ofType('instrument.registered'), (data) => data.instrumentId, instrument),
    materials: () => each(store.ofType('material.registered'), (data) => data.materialId, material),
    people: () => each(store.ofType('person.registered'), (data) => data.personId, person),
    fields: () => each(store.ofType('field.registered'), (data) => data.fieldId, field),
  };
}

export type Registers = ReturnType<typeof registers>;

/** The views of the ids that some records describe, each once, in the order of the records. */
export function each<Data, T>(
  records: readonly { readonly data: Data }[],
  id: (data: Data) => string,
  view: (id: string) => T | undefined,
): T[] {
  const ids = new Set(records.map((record) => id(record.data)));
  return [...ids].map(view).filter((found) => found !== undefined);
}
