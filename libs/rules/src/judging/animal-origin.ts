import type { Lot, Pile, Season } from '@furrowmark/domain';
import { materialAt } from './lot-uses.ts';

export type AnimalOrigin = 'yes' | 'no' | 'unknown';

const stronger = (a: AnimalOrigin, b: AnimalOrigin): AnimalOrigin =>
  a === 'yes' || b === 'yes' ? 'yes' : a === 'unknown' || b === 'unknown' ? 'unknown' : 'no';

/** Of a pile: of whatever went into it. */
export function animalOriginOfPile(season: Season, pile: Pile, seen: ReadonlySet<string> = new Set()): AnimalOrigin {
  const inputs = pile.inputs.map(({ lotId }) => {
    const lot = season.lot(lotId);
    return lot === undefined ? 'unknown' : animalOriginOf(season, lot, new Set([...seen, pile.id]));
  });
  return inputs.reduce(stronger, inputs.length === 0 ? 'unknown' : 'no');
}

/** Of a lot: of its material, and of what went into the pile that it came from. */
export function animalOriginOf(season: Season, lot: Lot, seen: ReadonlySet<string> = new Set()): AnimalOrigin {
  const material = materialAt(season, lot, lot.at.at)?.animalOrigin ?? 'unknown';
  if (lot.origin.kind === 'received' || material === 'yes' || seen.has(lot.origin.pileId)) return material;
  const pile = season.pile(lot.origin.pileId);
  return pile === undefined ? material : stronger(material, animalOriginOfPile(season, pile, seen));
}
