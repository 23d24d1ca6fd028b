import type { Season, TraceRoot } from '@furrowmark/domain';

/** Something a trace begins with, as it is looked for. */
export interface Thing {
  readonly kind: 'lot' | 'batch' | 'field' | 'harvest';
  readonly id: string;
  readonly code: string;
  /** Material, tank, crops: what it is also known by. */
  readonly detail: string;
  /** Begun at, ms; 0 for ground. */
  readonly at: number;
}

export const isTraceable = (kind: string): kind is Thing['kind'] & TraceRoot['kind'] =>
  ['lot', 'batch', 'field', 'harvest'].includes(kind);

/** Everything that a trace may begin with: the latest of each kind first. */
export function things(season: Season): readonly Thing[] {
  const cropOf = (plantingId: string | null | undefined): string =>
    (plantingId ?? '') === '' ? '' : (season.planting(plantingId ?? '')?.started.data.crop ?? '');
  const found: Thing[] = [
    ...season.lots().map((lot): Thing => {
      const name = season.material(lot.materialId)?.registered.name ?? '';
      const supplier = lot.origin.kind === 'received' ? lot.origin.record.data.supplierLot : '';
      return { kind: 'lot', id: lot.id, code: lot.code, detail: joined(name, supplier), at: lot.at.at };
    }),
    ...season.batches().map((batch): Thing => {
      const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
      const at = batch.opened?.at.at ?? batch.records[0]?.at.at ?? 0;
      return { kind: 'batch', id: batch.id, code: batch.code, detail: vessel?.registered.code ?? '', at };
    }),
    ...season.fields().map((field): Thing => {
      const crops = season
        .plantings()
        .filter(({ started }) => started.data.fieldId === field.id)
        .map(({ started }) => started.data.crop);
      return {
        ...{ kind: 'field', id: field.id, code: field.registered.code },
        ...{ detail: [...new Set(crops)].join(', '), at: 0 },
      };
    }),
    ...season.harvests().map((harvest): Thing => {
      const field = season.field(harvest.fieldId)?.registered.code ?? '';
      const detail = joined(field, cropOf(harvest.plantingId));
      return { kind: 'harvest', id: harvest.id, code: harvest.code, detail, at: harvest.at.at };
    }),
  ];
  return found.toSorted((a, b) => b.at - a.at || a.code.localeCompare(b.code));
}

const joined = (...parts: readonly string[]): string => parts.filter((part) => part !== '').join(' · ');
