import type { Season } from '@furrowmark/domain';

/** The page on which a thing is looked at; null for what has none. */
export function pageOf(kind: string, id: string): string | null {
  if (kind === 'batch') return `/batch/${id}`;
  if (kind === 'lot') return `/lot/${id}`;
  if (kind === 'field') return `/field/${id}`;
  if (kind === 'harvest') return `/trace/harvest/${id}`;
  return null;
}

/** The page on which a record is seen among its like. */
export function pageOfRecord(season: Season, recordId: string): string | null {
  const data: object | undefined = season.record(recordId)?.data;
  if (data === undefined) return null;
  for (const kind of ['batch', 'lot', 'field', 'harvest']) {
    const id: unknown = Reflect.get(data, `${kind}Id`);
    if (typeof id === 'string') return pageOf(kind, id);
  }
  const draws: unknown = Reflect.get(data, 'draws');
  const first: unknown = Array.isArray(draws) ? draws[0] : undefined;
  const batchId: unknown = typeof first === 'object' && first !== null ? Reflect.get(first, 'batchId') : undefined;
  return typeof batchId === 'string' ? pageOf('batch', batchId) : null;
}
