import type { Season } from '../facts/types.ts';
import type { TraceNode, TraceRef } from './types.ts';

/** What people call a thing; the id's first block where no record named it. */
export function named(season: Season, { kind, id }: TraceRef): TraceNode {
  return { kind, id, code: codeOf(season, { kind, id }) ?? id.slice(0, id.indexOf('-')) };
}

function codeOf(season: Season, { kind, id }: TraceRef): string | undefined {
  switch (kind) {
    case 'lot':
      return season.lot(id)?.code;
    case 'pile':
      return season.pile(id)?.started.data.code;
    case 'batch':
      return season.batch(id)?.code;
    case 'draw':
      return drawCode(season, id);
    case 'application':
      return season.application(id)?.code;
    case 'field':
      return season.field(id)?.registered.code;
    case 'planting':
      return season.planting(id)?.started.data.crop;
    case 'harvest':
      return season.harvest(id)?.code;
    case 'shipment':
      return shipmentCode(season, id);
  }
}

/** "T-14 · North 4": the batch, and where the load went. */
function drawCode(season: Season, id: string): string | undefined {
  const found = season.draw(id);
  if (found === undefined) return undefined;
  const targets = found.draw.applicationIds.flatMap((each) => season.application(each)?.targets ?? []);
  const places = targets.map(({ fieldId, lotId }) =>
    fieldId !== undefined
      ? codeOf(season, { kind: 'field', id: fieldId })
      : lotId && codeOf(season, { kind: 'lot', id: lotId }),
  );
  return [found.batch.code, ...new Set(places.filter((place) => place !== undefined))].join(' · ');
}

function shipmentCode(season: Season, id: string): string | undefined {
  const record = season.record(id);
  return record?.type === 'harvest.shipped' ? record.data.reference : undefined;
}

/** Whether any record describes the thing. */
export const isDescribed = (season: Season, ref: TraceRef): boolean => codeOf(season, ref) !== undefined;

/** Whether any record speaks of the thing as one of its kind: describes it, or names it in a member of that kind. */
export function isNamed(season: Season, ref: TraceRef): boolean {
  return isDescribed(season, ref) || season.about(ref.id).some(({ data }) => names(data, `${ref.kind}Id`, ref.id));
}

function names(value: unknown, member: string, id: string): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return Object.entries(value).some(([name, inner]) => (name === member && inner === id) || names(inner, member, id));
}
