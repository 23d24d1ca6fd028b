import { comparePlaces, type Place } from '../order.ts';
import { rankOf } from '../records/catalogue.ts';
import type { Application, LotMovement, Season } from '../facts/types.ts';
import type { CurrentRecord } from '../records/record.ts';
import type { Within } from './within.ts';

/** What moves lots about, in the order in which it happened. */
export type Happening = Place &
  (
    | { readonly kind: 'use'; readonly lotId: string; readonly movement: LotMovement }
    | { readonly kind: 'finish'; readonly finish: CurrentRecord<'pile.finished'> }
    | { readonly kind: 'application'; readonly application: Application }
  );

/** Uses of these lots, finishes of piles, applications. */
export function happenings(season: Season, { lots, finishes, applications }: Within): Happening[] {
  const found: Happening[] = [];
  const firstUse = new Map<string, number>();
  for (const [lotId, movements] of lots) {
    for (const movement of movements) {
      const record = season.record(movement.recordId);
      if (record === undefined || !isUse(movement)) continue;
      found.push({
        instant: movement.at.at,
        rank: rankOf(record.type),
        id: record.id,
        kind: 'use',
        lotId,
        movement,
      });
      firstUse.set(lotId, Math.min(firstUse.get(lotId) ?? Infinity, movement.at.at));
    }
  }
  for (const finish of finishes) {
    // Used before it was recorded as finished: the use shows that it was there.
    const instant = Math.min(finish.at.at, firstUse.get(finish.data.lotId) ?? Infinity);
    found.push({ instant, rank: rankOf(finish.type), id: finish.id, kind: 'finish', finish });
  }
  for (const application of applications) {
    const draws = application.loads.map((load) => season.draw(load.drawSubjectId)?.draw.at.at ?? -Infinity);
    const instant = Math.max(application.started.at, ...draws);
    const { record } = application;
    found.push({ instant, rank: rankOf(record.type), id: record.id, kind: 'application', application });
  }
  return found.sort(comparePlaces);
}

/** Tank mixes are uses too, but happen within their application. */
function isUse({ kind }: LotMovement): boolean {
  return kind === 'batch' || kind === 'neutralizer' || kind === 'pile' || kind === 'disposed';
}
