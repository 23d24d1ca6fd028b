import { describe, expect, it } from '@jest/globals';
import { openSeason } from '../fold/season.ts';
import type { Quantity } from '../quantity/quantity.ts';
import { idOf, pounds } from '../testing/book.ts';
import { farm } from '../testing/brew.ts';
import { harvest } from '../testing/traced.ts';
import { harvestAccount } from './harvestAccount.ts';

/** 2,400 lb of carrots, and what went out of them. */
function account(...shipped: readonly Quantity[]) {
  const book = farm();
  book.write('measure.registered', '01 08:00', {
    ...{ measureId: idOf('crate'), name: 'crate', equals: pounds(40), weighedOn: '2026-05-01' },
  });
  book.write('field.registered', '01 08:05', {
    ...{ fieldId: idOf('North'), code: 'North', kind: 'field', landStatus: 'organic' },
  });
  harvest(book, 'H-1', 'North', '10 08:00');
  for (const [i, quantity] of shipped.entries()) {
    book.write('harvest.shipped', `1${String(i + 1)} 08:00`, {
      ...{ harvestId: idOf('H-1'), quantity, to: `market ${String(i + 1)}`, reference: `S-${String(i + 1)}` },
    });
  }
  const season = openSeason(book.records);
  const found = season.harvest(idOf('H-1'));
  if (found === undefined) throw new Error('no harvest');
  const { unit, lines } = harvestAccount(season, found);
  return { unit, left: lines.map(({ left }) => left?.toNumber() ?? null), to: lines.map(({ to }) => to) };
}

describe('what became of a harvest', () => {
  // 30 crates of 40 lb are 1,200 lb; 500 kg are 1,102.311 lb (0.453 592 37 kg a pound: NIST Handbook 44, Appendix C).
  it('harvested is shipped and left, whatever it was counted in: 2,400 lb less 30 crates of 40 lb and 500 kg are 97.69 lb', () => {
    const { unit, left, to } = account(
      { value: 30, unit: '{measure}', measureId: idOf('crate') },
      { value: 500, unit: 'kg' },
    );
    expect(unit).toBe('[lb_av]');
    expect(left.slice(0, 2)).toEqual([2400, 1200]);
    expect(left[2]).toBeCloseTo(97.689, 3);
    expect(to).toEqual([undefined, 'market 1', 'market 2']);
  });
  it('more shipped than harvested goes below zero, and is not cut off there', () => {
    expect(account(pounds(2000), pounds(500)).left).toEqual([2400, 400, -100]);
  });
  it('an amount that cannot be told in its unit leaves the rest unknown', () => {
    expect(account({ value: 40, unit: '{count}' }, pounds(1)).left).toEqual([2400, null, null]);
  });
});
