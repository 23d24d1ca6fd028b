import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { randomSeason } from '../testing/randomSeason.ts';
import { openingSeason, openSeason, type OpenSeason } from './season.ts';

const everything = (season: OpenSeason): string =>
  JSON.stringify([season.timeZone, season.batches(), season.lots(), season.applications()]);

describe('records taken out again', () => {
  it('leave the season as if they had never come, and may come again in the log’s words', () => {
    fc.assert(
      fc.property(randomSeason, fc.array(fc.nat(), { minLength: 1, maxLength: 4 }), (records, picks) => {
        const some = [...new Set(picks.map((n) => records[n % records.length]))].filter((each) => each !== undefined);
        const rest = records.filter((record) => !some.includes(record));
        const entered = some.map((record) => ({ ...record, recordedBy: 'this device' }));
        const season = openSeason([...rest, ...entered]);
        everything(season);
        season.withdraw(some.map(({ id }) => id));
        expect(everything(season)).toBe(everything(openSeason(rest)));
        season.add(some);
        expect(everything(season)).toBe(everything(openSeason(records)));
        expect(some.map(({ id }) => season.record(id)?.recordedBy)).toEqual(some.map(({ recordedBy }) => recordedBy));
      }),
      { numRuns: 60 },
    );
  });
});

describe('a season opened step by step', () => {
  it('is the season opened at once, and stops after each step', () => {
    fc.assert(
      fc.property(randomSeason, fc.integer({ min: 1, max: 20 }), (records, each) => {
        const opening = openingSeason(records, each);
        const taken: number[] = [];
        let step = opening.next();
        while (step.done !== true) {
          taken.push(step.value);
          step = opening.next();
        }
        expect(taken).toEqual(Array.from({ length: Math.floor(records.length / each) }, (_, i) => (i + 1) * each));
        expect(everything(step.value)).toBe(everything(openSeason(records)));
      }),
      { numRuns: 40 },
    );
  });
});
