import type { Batch } from '../facts/types.ts';
import type { CurrentRecord } from '../records/record.ts';
import type { Loads } from './applications.ts';
import type { Stock } from './stock.ts';
import type { Store } from './store.ts';

/**
 * Tells which of the ids that records name no record has described yet. It looks at registrations only: what else became
 * of a vessel or a person leaves the batches that name them as they were.
 */
export function describing(store: Store, stock: Stock, { batchOfDraw, application }: Loads) {
  const isVessel = (id: string) => store.naming('vessel.registered', id).some((each) => each.data.vesselId === id);
  const isEquipment = (id: string) => store.naming('equipment.registered', id).length > 0;
  const isDescribed: Readonly<Record<string, (id: string) => boolean>> = {
    source: (id) => store.naming('source.registered', id).some((each) => each.data.sourceId === id),
    delivery: (id) => store.naming('source.delivered', id).length > 0,
    vessel: isVessel,
    equipment: isEquipment,
    container: (id) => isVessel(id) || isEquipment(id),
    instrument: (id) => store.naming('instrument.registered', id).length > 0,
    measure: (id) => store.naming('measure.registered', id).some((each) => each.data.measureId === id),
    material: (id) => store.naming('material.registered', id).length > 0,
    lot: (id) => stock.identity(id) !== undefined,
    recipe: (id) => store.naming('recipe.published', id).length > 0,
    field: (id) => store.naming('field.registered', id).some((each) => each.data.fieldId === id),
    planting: (id) => store.naming('planting.started', id).some((each) => each.data.plantingId === id),
    person: (id) => store.naming('person.registered', id).length > 0,
    document: (id) => store.naming('document.attached', id).some((each) => each.data.documentId === id),
    sample: (id) => store.naming('batch.sampled', id).length > 0,
    draw: (id) => batchOfDraw(id) !== null,
    application: (id) => application(id) !== undefined,
    batch: (id) => store.naming('batch.opened', id).length + store.naming('tea.received', id).length > 0,
  };

  /** In the order of the records, each id once. */
  return (records: readonly CurrentRecord[]): Batch['missing'] => {
    const seen = new Set<string>();
    const missing: { kind: string; id: string; recordId: CurrentRecord['id'] }[] = [];
    for (const record of records) {
      if (record.state === 'struck') continue;
      const references = referencesOf(record);
      for (let i = 0; i < references.length; i += 2) {
        const [kind, id] = [references[i] ?? '', references[i + 1] ?? ''];
        if (seen.has(id)) continue;
        seen.add(id);
        if (isDescribed[kind]?.(id) === false) missing.push({ kind, id, recordId: record.id });
      }
    }
    return missing;
  };
}

const kinds: Readonly<Record<string, string>> = {
  blowerId: 'equipment',
  dilutionSourceId: 'source',
  intoBatchId: 'batch',
  fromPlantingId: 'planting',
  documentIds: 'document',
  into: 'container',
  applicator: 'person',
  performedBy: 'person',
};

const kindsNamed = new Map<string, string | null>();

/** The kind of thing that a member of this name names; null where it is no reference. */
function kindNamedBy(member: string): string | null {
  let kind = kindsNamed.get(member);
  if (kind === undefined) {
    kind = kinds[member] ?? (member.endsWith('Id') ? member.slice(0, -2) : null);
    kindsNamed.set(member, kind);
  }
  return kind;
}

/**
 * The kinds and ids that each record names, one after the other. Kept per record: a batch is folded anew with every
 * reading, and its other records have not changed.
 */
const kept = new WeakMap<CurrentRecord, readonly string[]>();

function referencesOf(record: CurrentRecord): readonly string[] {
  let found = kept.get(record);
  if (found !== undefined) return found;
  const references: string[] = [];
  const see = (member: string, id: string) => {
    const kind = kindNamedBy(member);
    if (kind !== null) references.push(kind, id);
  };
  if (record.performedBy !== undefined) see('performedBy', record.performedBy);
  visit(record.data, '', see);
  found = references.slice();
  kept.set(record, found);
  return found;
}

function visit(value: unknown, member: string, see: (member: string, id: string) => void): void {
  if (typeof value === 'string') see(member, value);
  else if (Array.isArray(value)) for (const item of value) visit(item, member, see);
  else if (typeof value === 'object' && value !== null)
    for (const [name, inner] of Object.entries(value)) visit(inner, name, see);
}
