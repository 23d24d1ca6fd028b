import { useSeason } from '../../../season/useSeason.ts';
import type { Ring } from '../ring.ts';
import { open } from './corners.ts';
import type { Neighbour } from './OutlinePicture.tsx';

/** What is drawn of the other fields, as they are now. */
export function useNeighbours(): readonly Neighbour[] {
  const local = useSeason();
  if (local.kind !== 'ready') return [];
  const { engine, season } = local;
  return season.fields().flatMap((field) => {
    const { code, boundary } = engine.domain.asOf(field, Date.now());
    const outer: Ring | undefined = boundary?.coordinates[0];
    return outer === undefined ? [] : [{ id: field.id, code, ring: open(outer) }];
  });
}
