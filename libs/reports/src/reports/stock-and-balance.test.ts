import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  brew,
  farm,
  gal,
  harvest,
  id,
  lb,
  loads,
  made,
  printed,
  seasonOf,
  tableIn,
  wordsIn,
  type Line,
} from '../testing/season.ts';
import { massBalance } from './mass-balance.ts';
import { stock } from './stock.ts';

const counted: readonly Line[] = [
  ['lot.disposed', '05-02 08:00', { lotId: id('WC-1'), quantity: lb(4), reason: 'wet' }],
  ['lot.counted', '05-10 08:00', { lotId: id('WC-1'), quantity: lb(85) }],
];
const season = seasonOf(...farm, ...brew, ...loads, ...counted, ...harvest);

describe('mass balance', () => {
  it('is opening + received − used − disposed = closing: 0 + 100 − 10 − 4 = 86, counted 85, one short', () => {
    expect(printed(tableIn(made(massBalance, season, {}), 'inputs'))[1]).toEqual([
      ...['WC-1', 'worm compost', 'lb', '0.000', '100.000', '10.000', '4.000', '86.000', '85.000', '−1.000'],
    ]);
  });

  it('opens a later period with what the earlier one closed with', () => {
    const may = made(massBalance, season, { from: '2026-05-01', to: '2026-05-31' });
    expect(
      printed(tableIn(may, 'inputs'))
        .find(([lot]) => lot === 'WC-1')
        ?.slice(3, 8),
    ).toEqual([...['90.000', '0.000', '0.000', '4.000', '86.000']]);
  });

  it('balances as printed for any amounts', () => {
    const amount = fc.integer({ min: 1, max: 99_999 }).map((n) => n / 1000);
    fc.assert(
      fc.property(fc.array(amount, { minLength: 1, maxLength: 6 }), (amounts) => {
        const uses = amounts.map((value, index): Line => [
          'batch.ingredientAdded',
          `04-${21 + index} 09:00`,
          { batchId: id('T-1'), lotId: id('WC-1'), quantity: { value, unit: 'kg' } },
        ]);
        const row = tableIn(made(massBalance, seasonOf(...farm, ...uses), {}), 'inputs').rows.find(
          ([lot]) => lot?.text === 'WC-1',
        );
        const [opening, received, used, disposed, closing] = (row ?? [])
          .slice(3, 8)
          .map((cell) => Math.round(Number(cell.value) * 1000));
        expect((opening ?? 0) + (received ?? 0) - (used ?? 0) - (disposed ?? 0)).toBe(closing);
      }),
      { numRuns: 25 },
    );
  });

  it('balances tea as well: filled − drawn − remaining = unaccounted, with totals of the lines', () => {
    const { rows, total } = tableIn(made(massBalance, season, {}), 'tea');
    expect(rows[0]?.map(({ text }) => text)).toEqual(['T-1', '300.0', '0.0', '270.0', '0.0', '0.0', '28.0', '2.0']);
    expect(total?.map(({ text }) => text)).toEqual(['Total', '300.0', '0.0', '270.0', '0.0', '0.0', '28.0', '2.0']);
  });

  it('says of each harvest what was not shipped', () => {
    expect(printed(tableIn(made(massBalance, season, {}), 'harvests'))).toEqual([
      ['H-1', 'North', 'organic', '2,400 lb', '1,200 lb', '1,200 lb'],
    ]);
  });
});

describe('stock that was there when the books were opened', () => {
  it('is said to be that, though the balance counts it as received', () => {
    const opening = [
      'lot.received',
      '04-03 08:00',
      {
        ...{ lotId: id('WC-0'), code: 'WC-0', materialId: id('WC') },
        supplierLot: '',
        quantity: lb(9),
        openingStock: true,
      },
    ] as const;
    const words = wordsIn(made(massBalance, seasonOf(...farm, opening), {}));
    expect(words).toContain('In stock when the books were opened, and counted as received on that day: WC-0.');
    expect(wordsIn(made(massBalance, seasonOf(...farm), {}))).not.toContain('when the books were opened');
  });
});

describe('stock', () => {
  it('is what came in less what went out by the end of the day asked for', () => {
    const on = (day: string): string | undefined =>
      printed(tableIn(made(stock, season, { on: day }), 'stock')).find(([lot]) => lot === 'WC-1')?.[3];
    expect(on('2026-04-19')).toBe('100.000');
    expect(on('2026-04-20')).toBe('90.000');
    expect(on('2026-05-02')).toBe('86.000');
    expect(on('2026-04-01')).toBeUndefined();
  });

  it('says so where more of a lot went out than came in', () => {
    const short = seasonOf(...farm, [
      'lot.disposed',
      '05-02 08:00',
      { lotId: id('WC-1'), quantity: lb(101), reason: 'wet' },
    ]);
    const row = printed(tableIn(made(stock, short, { on: '2026-05-03' }), 'stock')).find(([lot]) => lot === 'WC-1');
    expect([row?.[3], row?.[7]]).toEqual(['−1.000', 'more went out than came in']);
  });

  it('marks held, recalled and overdue lots', () => {
    const held = seasonOf(
      ...farm,
      [
        'lot.received',
        '04-02 09:00',
        {
          lotId: id('FH-1'),
          code: 'FH-1',
          materialId: id('MO'),
          supplierLot: 'a',
          quantity: gal(2),
          expiresOn: '2026-04-30',
        },
      ],
      ['lot.held', '04-03 08:00', { lotId: id('WC-1'), reason: 'seal broken' }],
      ['lot.recalled', '04-04 08:00', { lotId: id('MO-1'), reason: 'notice' }],
    );
    const states = new Map(
      printed(tableIn(made(stock, held, { on: '2026-05-01' }), 'stock')).map((row) => [row[0], row[7]]),
    );
    expect(Object.fromEntries(states)).toEqual({ 'FH-1': 'past its date', 'MO-1': 'recalled', 'WC-1': 'held' });
  });
});
