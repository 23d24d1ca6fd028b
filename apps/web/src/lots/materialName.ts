import type { Season } from '@furrowmark/domain';
import type { Engine } from '../season/engine.ts';

interface Known {
  readonly engine: Engine;
  readonly season: Season;
}

/** What people call a material now, in both of the crew's languages: `worm compost / humus de lombriz`. */
export function materialName({ engine, season }: Known, materialId: string, now: number): string {
  const material = season.material(materialId);
  if (material === undefined) return '';
  const { name, otherName } = engine.domain.asOf(material, now);
  return [name, otherName ?? ''].filter((part) => part !== '').join(' / ');
}
