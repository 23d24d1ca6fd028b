import { describe, expect, it } from '@jest/globals';
import { idOf } from '../testing/book.ts';
import { airOff, airOn, farm, fill, open, put } from '../testing/brew.ts';
import { openSeason } from './season.ts';

function minutes(write: (book: ReturnType<typeof farm>) => void) {
  const book = farm();
  open(book, 'T-14', '02 05:00');
  write(book);
  return openSeason(book.records).batch(idOf('T-14'))?.preAerationMinutes?.value ?? null;
}

describe('pre-aeration', () => {
  it('air from 09:05 to the first ingredient at 09:27 is 22 min', () => {
    expect(
      minutes((book) => {
        fill(book, 'T-14', '02 09:00', 1000);
        airOn(book, 'T-14', '02 09:05');
        put(book, 'T-14', '02 09:27', 'compost', 10);
      }),
    ).toBe(22);
  });

  it('air that ran while the tank filled counts from the end of the fill: 09:10 to 09:27 is 17 min', () => {
    expect(
      minutes((book) => {
        airOn(book, 'T-14', '02 08:50');
        fill(book, 'T-14', '02 09:10', 1000);
        put(book, 'T-14', '02 09:27', 'compost', 10);
      }),
    ).toBe(17);
  });

  it('of several fills before the first ingredient the last counts: 09:20 to 09:27 is 7 min', () => {
    expect(
      minutes((book) => {
        fill(book, 'T-14', '02 09:00', 500);
        airOn(book, 'T-14', '02 09:05');
        fill(book, 'T-14', '02 09:20', 500);
        put(book, 'T-14', '02 09:27', 'compost', 10);
      }),
    ).toBe(7);
  });

  it('an interruption begins the count anew: on again at 09:17, so 10 min', () => {
    expect(
      minutes((book) => {
        fill(book, 'T-14', '02 09:00', 1000);
        airOn(book, 'T-14', '02 09:05');
        airOff(book, 'T-14', '02 09:15');
        airOn(book, 'T-14', '02 09:17');
        put(book, 'T-14', '02 09:27', 'compost', 10);
      }),
    ).toBe(10);
  });

  it('without air before the ingredient it is 0 min', () => {
    expect(
      minutes((book) => {
        fill(book, 'T-14', '02 09:00', 1000);
        put(book, 'T-14', '02 09:27', 'compost', 10);
        airOn(book, 'T-14', '02 09:30');
      }),
    ).toBe(0);
  });

  it('air that ran before the fill ended and not after it is 0 min, and not a moment more', () => {
    expect(
      minutes((book) => {
        airOn(book, 'T-14', '02 08:50');
        airOff(book, 'T-14', '02 09:00');
        fill(book, 'T-14', '02 09:10', 1000);
        put(book, 'T-14', '02 09:27', 'compost', 10);
      }),
    ).toBe(0);
  });

  it('compost in the minute when the fill ended went into that water: 0 min, not unknown', () => {
    expect(
      minutes((book) => {
        airOn(book, 'T-14', '02 08:50');
        fill(book, 'T-14', '02 09:10', 1000);
        put(book, 'T-14', '02 09:10', 'compost', 10);
      }),
    ).toBe(0);
  });

  it('chlorinated water onto living tea does not touch the first fill’s minutes', () => {
    expect(
      minutes((book) => {
        fill(book, 'T-14', '02 09:00', 900);
        airOn(book, 'T-14', '02 09:05');
        put(book, 'T-14', '02 09:27', 'compost', 10);
        fill(book, 'T-14', '02 15:00', 100);
      }),
    ).toBe(22);
  });

  it('antifoam before the compost does not end it: 09:05 to 09:27 is 22 min', () => {
    expect(
      minutes((book) => {
        fill(book, 'T-14', '02 09:00', 900);
        airOn(book, 'T-14', '02 09:05');
        put(book, 'T-14', '02 09:10', 'antifoam', 1);
        put(book, 'T-14', '02 09:27', 'compost', 10);
      }),
    ).toBe(22);
  });

  it('without a fill or an ingredient there is none', () => {
    expect(minutes((book) => void fill(book, 'T-14', '02 09:00', 1000))).toBeNull();
    expect(minutes((book) => void put(book, 'T-14', '02 09:27', 'compost', 10))).toBeNull();
  });
});
