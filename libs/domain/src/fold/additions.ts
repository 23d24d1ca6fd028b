import { asOf } from '../facts/asOf.ts';
import type { Ingredient } from '../facts/types.ts';
import { compareCurrent } from '../order.ts';
import type { CurrentRecord } from '../records/record.ts';
import type { Registers } from './registers.ts';
import type { Stock } from './stock.ts';
import type { Store } from './store.ts';

/** What was put into batches, with what is known of the material on that day. */
export function additions(store: Store, { materialItself }: Registers, stock: Stock) {
  type Addition = CurrentRecord<'batch.ingredientAdded'> | CurrentRecord<'batch.neutralizerAdded'>;

  const ingredient = (record: Addition): Ingredient => {
    const { lotId, quantity } = record.data;
    const lot = stock.identity(lotId);
    const known = lot && materialItself(lot.materialId);
    const data = known && asOf(known, record.at.at);
    return {
      recordId: record.id,
      kind: record.type === 'batch.ingredientAdded' ? 'ingredient' : 'neutralizer',
      lotId,
      materialId: lot?.materialId ?? null,
      materialKind: data?.kind ?? null,
      microbialFood: data === undefined ? null : data.microbialFood === 'yes',
      animalOrigin: data?.animalOrigin ?? 'unknown',
      quantity,
      amount: stock.amountOf(lotId, quantity, record.at),
      at: record.at,
    };
  };

  /** One addition, by its record; undefined where the id is of no standing addition. */
  const addition = store.memo.view('addition', (recordId): Ingredient | undefined => {
    const record = store.record(recordId);
    if (record === undefined || record.state === 'struck') return undefined;
    return record.type === 'batch.ingredientAdded' || record.type === 'batch.neutralizerAdded'
      ? ingredient(record)
      : undefined;
  });

  return {
    addition,
    additionsTo: (batchId: string): Ingredient[] =>
      [...store.naming('batch.ingredientAdded', batchId), ...store.naming('batch.neutralizerAdded', batchId)]
        .sort(compareCurrent)
        .map((record) => addition(record.id))
        .filter((found) => found !== undefined),
  };
}

export type Additions = ReturnType<typeof additions>;

/** Antifoam, neutralizer and sanitizer are aids: they neither start a brew nor renew it. */
const aids: ReadonlySet<string> = new Set(['antifoam', 'neutralizer', 'sanitizer']);

/** Starts the brew. An ingredient whose material is not known yet counts: it was recorded as one. */
export function startsBrew({ kind, materialKind }: Ingredient): boolean {
  return kind === 'ingredient' && !(materialKind !== null && aids.has(materialKind));
}

/** Compost, vermicompost or microbial food: what feeds life in the tank. */
export function isFood(addition: Ingredient): boolean {
  const { materialKind, microbialFood } = addition;
  if (!startsBrew(addition)) return false;
  return materialKind === 'compost' || materialKind === 'vermicompost' || microbialFood === true;
}
