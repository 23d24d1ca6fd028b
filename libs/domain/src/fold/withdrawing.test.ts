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

describe('records taken without asking what they change', () => {
  it('change the season as added ones do, and what is added afterwards still tells all that it changes', () => {
    fc.assert(
      fc.property(randomSeason, fc.nat(), fc.nat(), fc.boolean(), (records, first, second, folded) => {
        const [a, b] = [first, second].map((n) => n % (records.length + 1)).sort((one, other) => one - other);
        const season = openSeason(records.slice(0, a));
        if (folded) everything(season);
        season.take(records.slice(a, b));
        expect(everything(season)).toBe(everything(openSeason(records.slice(0, b))));
        const before = new Map(season.batches().map((batch) => [batch.id, JSON.stringify(batch)]));
        const { batches } = season.add(records.slice(b));
        expect(everything(season)).toBe(everything(openSeason(records)));
        const changed = season.batches().filter((batch) => JSON.stringify(batch) !== before.get(batch.id));
        expect(changed.filter(({ id }) => !batches.has(id))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
