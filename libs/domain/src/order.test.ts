import { describe, expect, it } from '@jest/globals';
import { comparePlaces, compareWritten } from './order.ts';
import { Book, idOf } from './testing/book.ts';

describe('the order of records', () => {
  it('goes by the instant, not by the text of its time or the order of arrival', () => {
    const book = new Book();
    const air = (at: string) => book.write('batch.airStarted', at, { batchId: idOf('T-14') });
    const noonInChicago = air('2026-06-03T07:00:00-05:00');
    const halfPastNoon = air('2026-06-03T12:30:00Z');
    const morning = air('2026-06-03T11:59:59.999Z');
    expect([noonInChicago, halfPastNoon, morning].sort(compareWritten)).toEqual([morning, noonInChicago, halfPastNoon]);
  });

  it('at one instant a fill comes before the air, the air before an addition, that before a draw and the closing', () => {
    const book = new Book();
    const batchId = idOf('T-14');
    const volume = { value: 1, unit: 'L' };
    book.write('batch.closed', '03 06:00', { batchId });
    book.write('batch.drawn', '03 06:00', { batchId, drawId: idOf('load 1'), volume });
    book.write('batch.airStopped', '03 06:00', { batchId });
    book.write('batch.ingredientAdded', '03 06:00', { batchId, lotId: idOf('compost'), quantity: volume });
    book.write('batch.airStarted', '03 06:00', { batchId });
    book.write('batch.filled', '03 06:00', { batchId, sourceId: idOf('water'), volume });
    expect([...book.records].sort(compareWritten).map((record) => record.type)).toEqual([
      'batch.filled',
      'batch.airStarted',
      'batch.ingredientAdded',
      'batch.airStopped',
      'batch.drawn',
      'batch.closed',
    ]);
  });

  it('at one instant and of one type the lower id comes first', () => {
    const place = (id: string) => ({ instant: 0, rank: 1, id });
    expect(comparePlaces(place('a0'), place('b0'))).toBeLessThan(0);
    expect(comparePlaces(place('b0'), place('a0'))).toBeGreaterThan(0);
    expect(comparePlaces(place('a0'), place('a0'))).toBe(0);
  });

  it('whichever of two is asked first, the same one comes first: by instant, then type, then id', () => {
    const values = [0, 1].flatMap((instant) =>
      [0, 1].flatMap((rank) => ['a0', 'a1', 'b0'].map((id) => ({ instant, rank, id }))),
    );
    values.forEach((a, i) => {
      values.forEach((b, j) => {
        expect(Math.sign(comparePlaces(a, b))).toBe(Math.sign(i - j));
      });
    });
  });
});
