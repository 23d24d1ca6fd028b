import type { Season } from '@furrowmark/domain';
import type { Engine } from '../../season/engine.ts';
import { groundEvents } from './ground.ts';

/** Waiting times are shorter than this, whatever the rule book says of them. */
const longest = 400 * 86_400_000;

/** From when on the ground may be harvested by the rule of days to harvest, and which application asks for it. */
export interface EarliestHarvest {
  readonly at: number;
  /** The application's code. */
  readonly after: string;
  readonly batchId: string | undefined;
}

/** The latest of the days that applications on this ground ask to wait for; null where none does any more. */
export function earliestHarvest(engine: Engine, season: Season, fieldId: string, now: number): EarliestHarvest | null {
  let found: EarliestHarvest | null = null;
  for (const { kind, id, at, what, batchId } of groundEvents(season, fieldId)) {
    if (kind !== 'applied' || at < now - longest) continue;
    const asked = engine.rules
      .judgeThing(season, { kind: 'application', id }, now)
      .find(({ ruleId, outcome }) => ruleId === 'harvest-interval' && outcome === 'due')?.dueAt;
    if (asked !== undefined && asked > (found?.at ?? now)) found = { at: asked, after: what, batchId };
  }
  return found;
}
