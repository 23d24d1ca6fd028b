import { describe, expect, it } from '@jest/globals';
import { idOf } from '../testing/book.ts';
import { airOff, airOn, apply, brew, draw, farm, fill, open, put } from '../testing/brew.ts';
import { openSeason } from './season.ts';

const batchIn = (book: ReturnType<typeof farm>) => {
  const batch = openSeason(book.records).batch(idOf('T-14'));
  if (batch === undefined) throw new Error('no batch');
  return batch;
};

describe('brew time of a draw', () => {
  it('from the first ingredient at 06:00 to a draw at 06:30 the next day is 24.5 h', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:30', 'load 1', 300);
    expect(batchIn(book).draws[0]?.brewHours).toEqual({ value: 24.5, least: 24.5, most: 24.5 });
  });

  it('ends with the air off at 05:00 (23 h), not with the draw three hours later', () => {
    const book = farm();
    brew(book);
    airOff(book, 'T-14', '03 05:00');
    draw(book, 'T-14', '03 08:00', 'load 1', 300);
    expect(batchIn(book).draws[0]?.brewHours?.value).toBe(23);
  });

  it('an interruption of the air is shown apart, not subtracted: still 24 h', () => {
    const book = farm();
    brew(book);
    airOff(book, 'T-14', '02 12:00');
    airOn(book, 'T-14', '02 12:09');
    draw(book, 'T-14', '03 06:00', 'load 1', 300);
    const batch = batchIn(book);
    expect(batch.draws[0]?.brewHours?.value).toBe(24);
    expect(batch.interruptions.map((each) => each.minutes?.value)).toEqual([9]);
  });

  it('compost added more than 2 h after the start begins the brew anew: 20:00 to 06:00 is 10 h', () => {
    const book = farm();
    brew(book);
    put(book, 'T-14', '02 20:00', 'compost', 2);
    draw(book, 'T-14', '03 06:00', 'load 1', 300);
    expect(batchIn(book).draws[0]?.brewHours?.value).toBe(10);
  });

  it('molasses 2 h after the start to the minute still belongs to the first feeding', () => {
    const book = farm();
    brew(book);
    put(book, 'T-14', '02 08:00', 'molasses', 2);
    expect(batchIn(book).topUps).toEqual([]);
  });

  it('antifoam is never a top-up, nor does it start a brew', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    put(book, 'T-14', '02 05:30', 'antifoam', 1);
    put(book, 'T-14', '02 06:00', 'compost', 10);
    put(book, 'T-14', '02 20:00', 'antifoam', 1);
    const batch = batchIn(book);
    expect(batch.brewStart?.at).toBe(Date.parse('2026-06-02T06:00:00Z'));
    expect(batch.topUps).toEqual([]);
  });

  it('water of 10 % of the content (100 L onto 1000 L) is a top-up, 99 L is a splash', () => {
    const book = farm();
    brew(book);
    fill(book, 'T-14', '02 20:00', 99);
    expect(batchIn(book).topUps).toEqual([]);
    const other = farm();
    brew(other);
    fill(other, 'T-14', '02 20:00', 100);
    expect(batchIn(other).topUps.map((each) => each.what)).toEqual(['water']);
  });

  it('water by a bucket that nobody measured is a top-up: how little it was cannot be told', () => {
    const book = farm();
    brew(book);
    book.write('batch.filled', '02 20:00', {
      ...{ batchId: idOf('T-14'), sourceId: idOf('city water') },
      volume: { value: 2, unit: '{measure}', measureId: idOf('bucket') },
    });
    const { fills, topUps } = batchIn(book);
    expect(fills.map((each) => [each.litres?.toNumber() ?? null, each.shareOfContent])).toEqual([
      [1000, 1],
      [null, 1],
    ]);
    expect(topUps.map((each) => each.what)).toEqual(['water']);
  });

  it('a draw before the top-up keeps the first start, the one after it has the new one', () => {
    const book = farm();
    brew(book);
    draw(book, 'T-14', '03 06:00', 'load 1', 300);
    put(book, 'T-14', '03 07:00', 'compost', 5);
    draw(book, 'T-14', '03 19:00', 'load 2', 300);
    expect(batchIn(book).draws.map((each) => each.brewHours?.value)).toEqual([24, 12]);
    expect(batchIn(book).brewHours?.value).toBe(12);
  });

  it('an ingredient remembered to within half an hour makes the brew time a range: 24 h, 23.5 to 24.5', () => {
    const book = farm();
    open(book, 'T-14', '02 05:00');
    book.write(
      'batch.ingredientAdded',
      '02 06:00',
      { batchId: idOf('T-14'), lotId: idOf('compost'), quantity: { value: 10, unit: '[lb_av]' } },
      { plusMinusMinutes: 30 },
    );
    draw(book, 'T-14', '03 06:00', 'load 1', 300);
    expect(batchIn(book).draws[0]?.brewHours).toEqual({ value: 24, least: 23.5, most: 24.5 });
  });
});

describe('a batch of which only parts are known', () => {
  it('an ingredient before any fill or opening starts the brew, and the batch says what is missing', () => {
    const book = farm();
    put(book, 'T-14', '02 06:00', 'compost', 10);
    const batch = batchIn(book);
    expect(batch.phase).toBe('brewing');
    expect(batch.code).toBe(idOf('T-14').slice(0, 8));
    expect(batch.missing).toContainEqual(expect.objectContaining({ kind: 'batch', id: idOf('T-14') }));
  });

  it('an application of an unknown draw names no batch; it falls into place when the draw arrives', () => {
    const book = farm();
    const season = openSeason(book.records);
    const application = apply(book, 'A-1', '03 07:00', '03 08:00', { draws: ['load 1'] });
    season.add([application]);
    expect(season.application(idOf('A-1'))?.loads).toEqual([
      { drawSubjectId: idOf('load 1'), batchId: null, litres: null },
    ]);
    const drawn = draw(book, 'T-14', '03 06:30', 'load 1', 300);
    expect([...season.add([drawn]).batches]).toEqual([idOf('T-14')]);
    expect(season.batch(idOf('T-14'))?.draws[0]?.applicationId).toBe(idOf('A-1'));
  });
});

describe('phase', () => {
  it('goes open, filled, aerating, brewing, holding, closed, reviewed', () => {
    const book = farm();
    const phases: string[] = [];
    const season = openSeason(book.records);
    const note = () => {
      season.add(book.records);
      phases.push(season.batch(idOf('T-14'))?.phase ?? 'none');
    };
    open(book, 'T-14', '02 05:00');
    note();
    fill(book, 'T-14', '02 05:30', 1000);
    note();
    airOn(book, 'T-14', '02 05:35');
    note();
    put(book, 'T-14', '02 06:00', 'compost', 10);
    note();
    airOff(book, 'T-14', '03 06:00');
    note();
    book.write('batch.closed', '03 12:00', { batchId: idOf('T-14') });
    note();
    book.write('batch.reviewed', '04 12:00', {
      batchId: idOf('T-14'),
      throughSeq: 20,
      meaning: 'reviewed',
      statement: 'I have read these records.',
    });
    note();
    expect(phases).toEqual(['open', 'filled', 'aerating', 'brewing', 'holding', 'closed', 'reviewed']);
  });
});
