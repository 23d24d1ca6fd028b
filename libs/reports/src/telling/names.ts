import { asOf } from '@furrowmark/domain';
import { localTime } from '../clock.ts';
import type { Telling } from './telling.ts';

/** The short form of an id, for a thing that no record describes. */
export const shortId = (id: string): string => id.slice(0, 8);

/** A person's name; where the name is sealed or erased, that it is withheld. */
export function personName({ season, words, now }: Telling, id: string | undefined): string {
  if (id === undefined) return words.nobody;
  const person = season.person(id);
  if (person === undefined) return words.unknownThing(shortId(id));
  const { personal } = asOf(person, now);
  return 'name' in personal ? personal.name : words.withheld(shortId(id));
}

/** Name with address, as the law on pesticide and substance records asks of who applied (7 USC 6519(a)(2)). */
export function personNameAndAddress(telling: Telling, id: string): string {
  const person = telling.season.person(id);
  const personal = person === undefined ? undefined : asOf(person, telling.now).personal;
  const name = personName(telling, id);
  return personal !== undefined && 'name' in personal && personal.address !== undefined
    ? `${name}, ${personal.address}`
    : name;
}

/** What people call a thing of any kind; its id in short where no record describes it. */
export function nameOf(telling: Telling, id: string): string {
  const { season, words } = telling;
  const registered =
    season.vessel(id) ??
    season.equipment(id) ??
    season.source(id) ??
    season.field(id) ??
    season.instrument(id) ??
    season.material(id);
  if (registered !== undefined) return registered.registered.code;
  const coded = season.batch(id) ?? season.lot(id) ?? season.application(id) ?? season.harvest(id);
  if (coded !== undefined) return coded.code;
  const planting = season.planting(id);
  if (planting !== undefined) return planting.started.data.crop;
  const pile = season.pile(id);
  if (pile !== undefined) return pile.started.data.code;
  if (season.person(id) !== undefined) return personName(telling, id);
  const recipe = season.recipe(id);
  if (recipe !== undefined) return recipe.data.code;
  const drawn = season.draw(id);
  if (drawn !== undefined) return words.draw(drawn.batch.code, localTime(drawn.draw.at.at, telling.zone));
  const document = season.ofType('document.attached').find((record) => record.data.documentId === id);
  if (document !== undefined) return document.data.title;
  return words.unknownThing(shortId(id));
}

/** `FH-26-03 · fish hydrolysate`: a lot with its material. */
export function lotName({ season, words }: Telling, id: string): string {
  const lot = season.lot(id);
  if (lot === undefined) return words.unknownThing(shortId(id));
  const material = season.material(lot.materialId);
  return material === undefined ? lot.code : `${lot.code} · ${material.registered.name}`;
}
