import type { Batch, Ingredient } from '../facts/types.ts';
import type { Decimal } from '../quantity/decimal.ts';
import type { LotId } from '../records/ids.ts';
import { lotsIn } from './draws.ts';
import { nothing } from './exact.ts';
import { type Load, tankOfRest } from './applications.ts';
import type { Parcels, TankHistory } from './tank.ts';

interface Line {
  added: Decimal;
  drawn: Decimal;
  lost: Decimal;
  left: Decimal;
}

/**
 * Where each lot put into the tank went: drawn (what was put back taken off; tea supplied counts as drawn), lost or
 * disposed of, still in it. added = drawn + lost + left, exactly.
 */
export function lotAccount(
  additions: readonly Ingredient[],
  loads: readonly Load[],
  supplied: ReadonlySet<string>,
  tank: TankHistory,
  addition: (recordId: string) => Ingredient | undefined,
): Batch['lotAccount'] {
  const lines = new Map<LotId, Line>();
  const book = (column: keyof Line, lotId: LotId, amount: Decimal) => {
    let line = lines.get(lotId);
    if (line === undefined) lines.set(lotId, (line = { added: nothing, drawn: nothing, lost: nothing, left: nothing }));
    line[column] = line[column].plus(amount);
  };
  const bookAll = (column: keyof Line, parcels: Parcels, sign = 1) => {
    for (const { lotId, amount } of lotsIn(parcels, addition)) book(column, lotId, amount.times(sign));
  };
  for (const each of additions) if (each.amount !== null) book('added', each.lotId, each.amount);
  for (const parcels of tank.carriedIn.values()) bookAll('added', parcels);
  for (const load of loads) {
    const tea = tank.draws.get(load.id);
    if (tea === undefined) continue;
    bookAll('drawn', tea.parcels);
    for (const record of load.ended) {
      if (tankOfRest(load, record) !== load.batchId) continue;
      const portion = tea.ended.find((each) => each.recordId === record.id);
      if (portion) bookAll('drawn', portion.parcels, -1);
    }
  }
  for (const [recordId, { parcels }] of tank.losses) bookAll(supplied.has(recordId) ? 'drawn' : 'lost', parcels);
  bookAll('left', tank.left);
  return [...lines].map(([lotId, line]) => ({ lotId, ...line }));
}
