import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { LogRecord } from '../records/record.ts';
import { randomSeason } from '../testing/randomSeason.ts';
import { openSeason, type OpenSeason } from './season.ts';

const everything = (season: OpenSeason): string =>
  JSON.stringify([season.size, season.timeZone, season.batches(), season.lots(), season.applications()]);

describe('records supposed for a while', () => {
  it('give what they would give were they recorded, and leave no trace', () => {
    fc.assert(
      fc.property(randomSeason, fc.array(fc.nat(), { minLength: 1, maxLength: 4 }), fc.nat(), (records, picks, cut) => {
        const some = new Set(picks.map((n) => records[n % records.length]));
        const rest = records.filter((record) => !some.has(record));
        const supposed = [...some].filter((record): record is LogRecord => record !== undefined);
        const [first, later] = [rest.slice(0, cut % (rest.length + 1)), rest.slice(cut % (rest.length + 1))];
        const season = openSeason(first);
        const before = everything(season);
        const version = season.version;
        expect(season.supposing(supposed, () => everything(season))).toBe(
          everything(openSeason([...first, ...supposed])),
        );
        expect(season.version).toBe(version);
        expect(everything(season)).toBe(before);
        // What is recorded afterwards finds the season as if nothing had been supposed, and names what it changes.
        const plain = openSeason(first);
        everything(plain);
        expect(season.add(later).batches).toEqual(plain.add(later).batches);
        expect(everything(season)).toBe(everything(openSeason(rest)));
      }),
      { numRuns: 80 },
    );
  });

  it('are taken back although the work on them fails', () => {
    fc.assert(
      fc.property(randomSeason, (records) => {
        const season = openSeason(records.slice(0, -2));
        const before = everything(season);
        expect(() =>
          season.supposing(records.slice(-2), () => {
            everything(season);
            throw new Error('no');
          }),
        ).toThrow('no');
        expect(everything(season)).toBe(before);
      }),
      { numRuns: 20 },
    );
  });

  it('have a version of their own that nothing recorded later has again', () => {
    fc.assert(
      fc.property(randomSeason, (records) => {
        const season = openSeason(records.slice(0, -1));
        const supposed = season.supposing(records.slice(-1), () => season.version);
        season.add(records.slice(-1));
        expect(season.version).toBeGreaterThan(supposed);
      }),
      { numRuns: 5 },
    );
  });
});
