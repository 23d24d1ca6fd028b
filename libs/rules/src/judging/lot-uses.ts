import { asOf, type Lot, type LotMovement, type Material, type Moment, type Season } from '@furrowmark/domain';
import { say, type Said } from '../words/index.ts';
import { dayOf } from './water.ts';

/** A lot going into tea: in the tank or in the sprayer. */
export type LotUse = LotMovement;

/** Uses in tea, tank mixes included; feedstock of a pile and cleaning are none. */
export const usesOf = (lot: Lot): readonly LotUse[] =>
  lot.movements.filter(({ kind }) => kind === 'batch' || kind === 'neutralizer' || kind === 'tankMix');

/** The uses that count beside a batch: its own in the tank, and those in the sprayer with its tea; null = all. */
export function usesBeside(season: Season, lot: Lot, batchId: string | null): readonly LotUse[] {
  if (batchId === null) return usesOf(lot);
  const into = usesInto(lot);
  const applications = season.applicationsOf(batchId).flatMap(({ id }) => into.get(id) ?? []);
  return [...(into.get(batchId) ?? []), ...applications];
}

const intos = new WeakMap<Lot, ReadonlyMap<string, readonly LotUse[]>>();

/** A lot's uses by the id of what they went into; a lot goes into hundreds of batches, each asked one by one. */
function usesInto(lot: Lot): ReadonlyMap<string, readonly LotUse[]> {
  let known = intos.get(lot);
  if (known === undefined) {
    known = Map.groupBy(usesOf(lot), ({ into }) => into?.id ?? '');
    intos.set(lot, known);
  }
  return known;
}

/** The days on which something may have happened: one, or two where the time is uncertain across midnight. */
export function daysOf(season: Season, at: Moment): readonly string[] {
  const [from, to] = [dayOf(season, at.from), dayOf(season, at.to)];
  return from === to ? [from] : [from, to];
}

/** "Used in T-14 on 3 June 2026". */
export function useWords(season: Season, use: LotUse): Said {
  const [code, on] = useOf(season, use);
  return code === undefined ? say('use.on', { on }) : say('use.in', { code, on });
}

/** The same inside a sentence. */
export function useWithin(season: Season, use: LotUse): Said {
  const [code, on] = useOf(season, use);
  return code === undefined ? say('use.onLower', { on }) : say('use.inLower', { code, on });
}

function useOf(season: Season, { into, at }: LotUse): readonly [code: string | undefined, on: string] {
  const code =
    into?.kind === 'batch'
      ? season.batch(into.id)?.code
      : into?.kind === 'application'
        ? season.application(into.id)?.code
        : undefined;
  return [code, dayOf(season, at.at)];
}

/** The material's name as people know it. */
export const materialName = (season: Season, lot: Lot): string =>
  season.material(lot.materialId)?.registered.name ?? lot.code;

/** A material as it was when used: for rules that ask its kind or origin. */
export const materialAt = (season: Season, lot: Lot, at: number): Material['registered'] | null => {
  const material = season.material(lot.materialId);
  return material === undefined ? null : asOf(material, at);
};
