import type { Season } from '@furrowmark/domain';

/** Something that happened on a piece of ground. */
export interface GroundEvent {
  readonly at: number;
  readonly kind: 'applied' | 'planted' | 'ended' | 'harvested' | 'exposed';
  readonly what: string;
  readonly id: string;
  /** The batch whose tea it was. */
  readonly batchId?: string | undefined;
}

/** What happened on the ground, with what lies over and under it, in order of time. */
export function groundEvents(season: Season, fieldId: string): readonly GroundEvent[] {
  const ground = season.sameGround(fieldId);
  const events: GroundEvent[] = [];
  for (const { id, code, finished, targets, loads } of season.applications())
    if (targets.some((target) => target.fieldId !== undefined && ground.has(target.fieldId)))
      events.push({ at: finished.at, kind: 'applied', what: code, id, batchId: loads[0]?.batchId ?? undefined });
  for (const { id, started, ended, standsFrom } of season.plantings()) {
    if (!ground.has(started.data.fieldId)) continue;
    const what = started.data.crop;
    events.push({ at: standsFrom, kind: 'planted', what, id });
    if (ended !== undefined) events.push({ at: ended.at.at, kind: 'ended', what, id });
  }
  for (const { id, code, at, fieldId: of } of season.harvests())
    if (ground.has(of)) events.push({ at: at.at, kind: 'harvested', what: code, id });
  for (const exposure of season.field(fieldId)?.exposures ?? [])
    events.push({ at: exposure.at.at, kind: 'exposed', what: exposure.data.substance, id: exposure.id });
  return events.toSorted((a, b) => a.at - b.at);
}

/** When tea last went on the ground before a moment; null where never. */
export const lastTea = (events: readonly GroundEvent[], before: number): number | null =>
  events.findLast(({ kind, at }) => kind === 'applied' && at <= before)?.at ?? null;
