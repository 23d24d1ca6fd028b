import { describe, expect, it } from '@jest/globals';
import { idOf, litresOf } from '../testing/book.ts';
import { apply, brew, draw, endDraw, farm, fill, open, put } from '../testing/brew.ts';
import { openSeason } from './season.ts';

const batchIn = (book: ReturnType<typeof farm>, name = 'T-14') => {
  const batch = openSeason(book.records).batch(idOf(name));
  if (batch === undefined) throw new Error('no batch');
  return batch;
};
const amounts = (lots: readonly { readonly lotId: string; readonly amount: { toFixed(): string } }[]) =>
  Object.fromEntries(lots.map((each) => [each.lotId, each.amount.toFixed()]));

describe('a well-mixed tank', () => {
  it('a draw of 250 of 1000 L takes a quarter of the 10 lb of compost: 2.5 lb', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 250);
    const [load] = batchIn(book).draws;
    expect(load?.shareOfTank).toBe(0.25);
    expect(amounts(load?.lots ?? [])).toEqual({ [idOf('compost')]: '2.5' });
  });

  it('after that draw, filled up again with 250 L and 5 lb, half of the tank holds (7.5 + 5) / 2 = 6.25 lb', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 250);
    fill(book, 'T-14', '03 07:00', 250);
    put(book, 'T-14', '03 07:10', 'compost', 5);
    draw(book, 'T-14', '04 06:00', 'load 2', 500);
    expect(amounts(batchIn(book).draws[1]?.lots ?? [])).toEqual({ [idOf('compost')]: '6.25' });
  });

  it('what is put back brings its lots back: 250 L out, 50 L back, then all of the 800 L holds 8 lb', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 250);
    endDraw(book, '03 09:00', 'load 1', 50, 'putBack');
    draw(book, 'T-14', '03 10:00', 'load 2', 800);
    expect(amounts(batchIn(book).draws[1]?.lots ?? [])).toEqual({ [idOf('compost')]: '8' });
    // 10 lb in = 2 lb that stayed out with load 1 + 8 lb with load 2.
    const [account] = batchIn(book).lotAccount;
    expect([account?.added, account?.drawn, account?.left].map(String)).toEqual(['10', '10', '0']);
  });

  it('foam lost before the draw took its share too: 100 L of 1000 L, so 9 lb are left for the other 900 L', () => {
    const book = farm();
    brew(book);
    book.write('batch.lost', '02 20:00', { batchId: idOf('T-14'), volume: litresOf(100), cause: 'foam' });
    draw(book, 'T-14', '03 06:00', 'load 1', 900);
    const batch = batchIn(book);
    expect(amounts(batch.draws[0]?.lots ?? [])).toEqual({ [idOf('compost')]: '9' });
    expect(batch.lotAccount[0]?.lost.toFixed()).toBe('1');
  });

  it('a load sprayed at 14:00 leaves the tank then, after the top-up at 13:00, whenever it was recorded', () => {
    const book = farm();
    apply(book, 'A-1', '03 14:00', '03 15:00', { loads: [{ batch: 'T-14', litres: 500 }] });
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 500);
    fill(book, 'T-14', '03 13:00', 500);
    // 10 lb, half out at 06:00, the other half of the 1000 L again at 14:00: 2.5 lb.
    expect(amounts(batchIn(book).draws[1]?.lots ?? [])).toEqual({ [idOf('compost')]: '2.5' });
  });

  it('tea carried over takes its lots along: 100 of 1000 L with 1 lb into a tank of 900 L, then half of it holds 0.5 lb', () => {
    const book = farm();
    brew(book);
    open(book, 'T-15', '03 05:00');
    fill(book, 'T-15', '03 05:30', 900);
    draw(book, 'T-14', '03 06:00', 'load 1', 100);
    endDraw(book, '03 07:00', 'load 1', 100, 'carriedOver', 'T-15');
    draw(book, 'T-15', '03 08:00', 'load 2', 500);
    const batch = batchIn(book, 'T-15');
    expect(amounts(batch.draws[0]?.lots ?? [])).toEqual({ [idOf('compost')]: '0.5' });
    expect(batch.volume.carriedInL.toFixed()).toBe('100');
    expect(batch.content.map((each) => each.litres.toFixed())).toEqual(['900', '1000', '500']);
  });

  it('two tanks may carry over into each other: every pound is still accounted for', () => {
    const book = farm();
    brew(book);
    brew(book, 'T-15');
    draw(book, 'T-14', '03 06:00', 'load 1', 300);
    endDraw(book, '03 07:00', 'load 1', 200, 'carriedOver', 'T-15');
    draw(book, 'T-15', '03 08:00', 'load 2', 700);
    endDraw(book, '03 09:00', 'load 2', 100, 'carriedOver', 'T-14');
    for (const name of ['T-14', 'T-15']) {
      for (const { added, drawn, lost, left } of batchIn(book, name).lotAccount) {
        expect(drawn.plus(lost).plus(left).toFixed()).toBe(added.toFixed());
      }
    }
    // T-14: 10 lb in, 3 lb out, and back comes 1/7 of load 2, which was 7/12 of the 10 + 2 lb in T-15: 1 lb.
    expect(Number(batchIn(book).lotAccount[0]?.added)).toBeCloseTo(11, 20);
  });

  it.each([
    [999, false],
    [1000, false],
    [1001, true],
  ])('%i L drawn of 1000 L: more than was filled, %s', (litres, overdrawn) => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', litres);
    expect(batchIn(book).overdrawn).toBe(overdrawn);
  });

  it('more drawn than filled: the first load takes everything, of the second the share cannot be told', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 1020);
    draw(book, 'T-14', '03 07:00', 'load 2', 100);
    const batch = batchIn(book);
    expect(batch.draws.map((each) => each.shareOfTank)).toEqual([1, null]);
    expect(batch.overdrawn).toBe(true);
    expect(batch.draws[1]?.parcels.map((each) => each.share.toFixed())).toEqual(['0', '0']);
    expect(batch.volume.unaccountedL.toFixed()).toBe('-120');
  });

  it('emptied, or never filled, and drawn from again: more was drawn than was filled', () => {
    for (const filled of [true, false]) {
      const book = farm();
      if (filled) brew(book);
      if (filled) draw(book, 'T-14', '03 06:00', 'load 1', 1000);
      put(book, 'T-14', '03 06:30', 'compost', 1);
      expect(batchIn(book).overdrawn).toBe(false);
      draw(book, 'T-14', '03 07:00', 'load 2', 1);
      expect(batchIn(book).overdrawn).toBe(true);
    }
  });

  it('drawn or filled in a bucket that nobody weighed: how much is in it is not known, so nothing is said to be too much', () => {
    const bucket = { value: 3, unit: '{measure}', measureId: idOf('bucket') };
    const drawn = farm();
    brew(drawn);
    drawn.any('batch.drawn', '03 06:00', { drawId: idOf('load 1'), batchId: idOf('T-14'), volume: bucket });
    expect([batchIn(drawn).overdrawn, batchIn(drawn).draws[0]?.shareOfTank]).toEqual([false, null]);
    draw(drawn, 'T-14', '03 07:00', 'load 2', 2000);
    expect(batchIn(drawn).overdrawn).toBe(false);
    const filled = farm();
    filled.any('batch.filled', '02 05:30', { batchId: idOf('T-14'), sourceId: idOf('city water'), volume: bucket });
    draw(filled, 'T-14', '03 06:00', 'load 1', 2000);
    expect([batchIn(filled).overdrawn, batchIn(filled).draws[0]?.shareOfTank]).toEqual([false, null]);
  });

  it('tea from a tank whose filling nobody recorded: the share is unknown, and nothing is invented', () => {
    const book = farm();
    put(book, 'T-14', '02 06:00', 'compost', 10);
    draw(book, 'T-14', '03 06:00', 'load 1', 250);
    const batch = batchIn(book);
    expect(batch.draws[0]?.shareOfTank).toBeNull();
    expect(batch.draws[0]?.parcels).toHaveLength(1);
    expect(batch.lotAccount[0]?.left.toFixed()).toBe('10');
  });

  it('a third drawn three times from a refilled tank: parts of a third still add up to the 10 lb exactly', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    fill(book, 'T-14', '02 05:30', 3);
    put(book, 'T-14', '02 06:00', 'compost', 10);
    for (const [i, at] of ['03 06:00', '03 07:00', '03 08:00'].entries()) {
      draw(book, 'T-14', at, `load ${String(i)}`, 1);
      fill(book, 'T-14', at.replace(':00', ':30'), 1);
    }
    const batch = batchIn(book);
    const [account] = batch.lotAccount;
    expect(account?.drawn.plus(account.left).toFixed()).toBe('10');
    expect(batch.draws[0]?.lots[0]?.amount.toFixed()).toBe(`3.${'3'.repeat(23)}`);
  });
});

describe('the volume account', () => {
  it('1000 L filled, 100 lost, 850 drawn, 30 put back, 20 disposed of, 40 left at closing: 20 L are not accounted for', () => {
    const book = farm();
    brew(book);
    book.write('batch.lost', '02 20:00', { batchId: idOf('T-14'), volume: litresOf(100), cause: 'foam' });
    draw(book, 'T-14', '03 06:00', 'load 1', 850);
    endDraw(book, '03 07:00', 'load 1', 30, 'putBack');
    book.write('batch.disposed', '03 08:00', {
      batchId: idOf('T-14'),
      volume: litresOf(20),
      reason: 'dregs',
      where: 'pasture',
    });
    book.write('batch.closed', '03 09:00', { batchId: idOf('T-14'), remainingVolume: litresOf(40) });
    const { volume } = batchIn(book);
    expect(volume.unaccountedL.toFixed()).toBe('20');
    expect(volume.remainingL?.toFixed()).toBe('40');
  });

  it('while the batch is open the running content stands for what remains', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 850);
    expect(batchIn(book).volume.unaccountedL.toFixed()).toBe('0');
    expect(batchIn(book).volume.remainingL).toBeNull();
  });

  it('250 US gal are 946.352946 L (231 in³ to the gallon, NIST Handbook 44 Appendix C)', () => {
    const book = farm();
    book.write('batch.filled', '02 05:30', {
      batchId: idOf('T-14'),
      sourceId: idOf('city water'),
      volume: { value: 250, unit: '[gal_us]' },
    });
    expect(batchIn(book).volume.filledL.toFixed()).toBe('946.352946');
  });
});
