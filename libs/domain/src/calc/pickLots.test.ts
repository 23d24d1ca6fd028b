import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { decimal } from '../quantity/index.ts';
import { pickLots, type StockLot } from './pickLots.ts';

const lot = (lotId: string, changes: Partial<StockLot> = {}): StockLot => ({
  lotId,
  materialId: 'm',
  code: lotId,
  balance: decimal(10),
  unit: '[lb_av]',
  expiresOn: null,
  receivedAt: 0,
  unusable: null,
  ...changes,
});
const ask = (lots: readonly StockLot[], value: number, unit = '[lb_av]') =>
  pickLots(lots, { value, unit }, '2026-06-03');
const told = (p: ReturnType<typeof ask>) => p.picks.map((x) => `${x.lotId} ${x.amount.toFixed()} ${x.unit}`);

describe('picking lots', () => {
  it('takes what expires first, and stock without a date last, oldest first', () => {
    const lots = [
      lot('never-new', { receivedAt: 5 }),
      lot('never-old', { receivedAt: 1 }),
      lot('july', { expiresOn: '2026-07-01' }),
      lot('june', { expiresOn: '2026-06-30', balance: decimal(2.5) }),
    ];
    expect(told(ask(lots, 25))).toEqual([
      'june 2.5 [lb_av]',
      'july 10 [lb_av]',
      'never-old 10 [lb_av]',
      'never-new 2.5 [lb_av]',
    ]);
  });
  it('of lots received at the same moment takes the lower id, in whatever order they are listed', () => {
    expect(told(ask([lot('a'), lot('b')], 1))).toEqual(['a 1 [lb_av]']);
    expect(told(ask([lot('b'), lot('a')], 1))).toEqual(['a 1 [lb_av]']);
  });
  it('a lot may be used on its last day and not on the day after', () => {
    expect(told(ask([lot('a', { expiresOn: '2026-06-03' })], 1))).toEqual(['a 1 [lb_av]']);
    const late = ask([lot('a', { expiresOn: '2026-06-02' })], 1);
    expect(late.picks).toEqual([]);
    expect(late.skipped).toEqual([{ lotId: 'a', code: 'a', why: 'expired on 2026-06-02' }]);
    expect(late.short.toFixed()).toBe('1');
  });
  it('passes over held and recalled lots and says why', () => {
    const picking = ask([lot('a', { unusable: 'was recalled' }), lot('b')], 1);
    expect(told(picking)).toEqual(['b 1 [lb_av]']);
    expect(picking.skipped).toEqual([{ lotId: 'a', code: 'a', why: 'was recalled' }]);
  });
  it('takes from each lot in the lot’s own unit', () => {
    expect(told(ask([lot('oz', { unit: '[oz_av]', balance: decimal(8) }), lot('lb', { receivedAt: 1 })], 2))).toEqual([
      'oz 8 [oz_av]',
      'lb 1.5 [lb_av]',
    ]);
  });
  it('a lot kept by volume gives no pounds', () => {
    expect(ask([lot('a', { unit: '[gal_us]' })], 1).skipped[0]?.why).toContain('does not convert');
  });
  it('picks and shortfall always make up what was asked for, and no lot is overdrawn', () => {
    const lots = fc.array(
      fc.tuple(fc.integer({ min: 0, max: 1000 }), fc.option(fc.constantFrom('2026-06-02', '2026-06-03', '2026-09-01'))),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(lots, fc.integer({ min: 0, max: 3000 }), (stock, tenths) => {
        const kept = stock.map(([n, expiresOn], i) => lot(String(i), { balance: decimal(n).div(10), expiresOn }));
        const picking = ask(kept, tenths / 10);
        const taken = picking.picks.reduce((sum, p) => sum.plus(p.amount), decimal(0));
        expect(taken.plus(picking.short).toFixed()).toBe(decimal(tenths / 10).toFixed());
        for (const p of picking.picks) expect(kept.find((l) => l.lotId === p.lotId)?.balance.gte(p.amount)).toBe(true);
      }),
    );
  });
});
