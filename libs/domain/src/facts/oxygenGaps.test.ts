import { describe, expect, it } from '@jest/globals';
import { openSeason } from '../fold/season.ts';
import { recordId } from '../records/ids.ts';
import { Book, idOf, litresOf } from '../testing/book.ts';
import { airOff, brew, draw, farm, open } from '../testing/brew.ts';
import { asOf } from './asOf.ts';
import { brewingEnd, longestOxygenGapHours } from './oxygenGaps.ts';

/** The usual brew, fed at 06:00 on the 2nd, with oxygen read at these times. */
function read(...times: readonly string[]): Book {
  const book = farm();
  brew(book);
  for (const at of times)
    book.write('batch.oxygenMeasured', at, { batchId: idOf('T-14'), dissolvedOxygen: { value: 7, unit: 'mg/L' } });
  return book;
}
const gap = (book: Book): number | null => {
  const batch = openSeason(book.records).batch(idOf('T-14'));
  if (batch === undefined) throw new Error('no batch');
  return longestOxygenGapHours(batch);
};

describe('the longest time without an oxygen reading', () => {
  it('while brewing goes on, up to the last reading: 3 h, 11 h, 2 h', () => {
    expect(gap(read('02 09:00', '02 20:00', '02 22:00'))).toBe(11);
    expect(gap(read('02 09:00'))).toBe(3);
    expect(gap(read())).toBeNull();
  });
  it('a reading before the food, or with it, measures nothing', () => {
    expect(gap(read('02 05:40', '02 08:00'))).toBe(2);
    expect(gap(read('02 05:40'))).toBeNull();
    expect(gap(read('02 06:00'))).toBeNull();
  });
  it('up to the air off, whatever is read after it', () => {
    const book = read('02 09:00', '03 12:00');
    airOff(book, 'T-14', '02 22:00');
    // From 09:00 to 22:00.
    expect(gap(book)).toBe(13);
    const none = read();
    airOff(none, 'T-14', '02 22:00');
    expect(gap(none)).toBe(16);
  });
  it('without air off up to the last draw, without a draw up to the closing', () => {
    const drawn = read('02 09:00');
    draw(drawn, 'T-14', '02 10:00', 'load 1', 100);
    draw(drawn, 'T-14', '02 19:00', 'load 2', 100);
    expect(gap(drawn)).toBe(10);
    const closed = read('02 09:00');
    closed.write('batch.closed', '02 14:00', { batchId: idOf('T-14'), remainingVolume: litresOf(0) });
    expect(gap(closed)).toBe(5);
  });
  it('of a tank that was never fed there is none, and it has no end', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    book.write('batch.oxygenMeasured', '02 09:00', {
      ...{ batchId: idOf('T-14'), dissolvedOxygen: { value: 7, unit: 'mg/L' } },
    });
    expect(gap(book)).toBeNull();
    const batch = openSeason(book.records).batch(idOf('T-14'));
    expect(batch && brewingEnd(batch)).toBeNull();
  });
});

describe('what a registered thing was', () => {
  it('a revision holds from its instant on, a later one over an earlier', () => {
    const thing = {
      registered: { code: 'Tote 2', litres: 1000 },
      revisions: [
        { from: 10, changes: { litres: 900 }, recordId: recordId.parse(idOf('a')) },
        { from: 20, changes: { code: 'Tote 3' }, recordId: recordId.parse(idOf('b')) },
      ],
    };
    expect(asOf(thing, 9)).toEqual({ code: 'Tote 2', litres: 1000 });
    expect(asOf(thing, 10)).toEqual({ code: 'Tote 2', litres: 900 });
    expect(asOf(thing, 20)).toEqual({ code: 'Tote 3', litres: 900 });
  });
});
