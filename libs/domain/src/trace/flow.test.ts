import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { exact, nothing } from '../fold/exact.ts';
import { openSeason } from '../fold/season.ts';
import { randomSeason } from '../testing/randomSeason.ts';
import { Flow } from './flow.ts';

describe('a lot followed through a random season', () => {
  it('ends somewhere to the last digit: ground + ends = what was received, or what was used where that is more', () => {
    fc.assert(
      fc.property(randomSeason, (records) => {
        const season = openSeason(records);
        for (const lot of season.lots()) {
          const flow = new Flow(season, { lots: new Set([lot.id]) });
          const reached = [...flow.log.arrivals, ...flow.log.ends, ...flow.log.gaps].reduce(
            (total, { amounts }) => total.plus(amounts?.get(lot.id) ?? nothing),
            nothing,
          );
          const used = lot.movements
            .filter(({ kind }) => kind !== 'received' && kind !== 'counted')
            .reduce((total, { amount }) => total.plus(amount ?? nothing), nothing);
          const received = exact(season.amountOf(lot.id, lot.quantity, lot.at) ?? 0);
          expect(reached.toFixed()).toBe((used.gt(received) ? used : received).toFixed());
        }
      }),
      { numRuns: 60 },
    );
  });

  it('the tea of a batch too: ground + ends = the litres that came into its tank', () => {
    fc.assert(
      fc.property(randomSeason, (records) => {
        const season = openSeason(records);
        for (const batch of season.batches()) {
          const flow = new Flow(season, { lots: new Set(), batch: batch.id });
          const reached = [...flow.log.arrivals, ...flow.log.ends].reduce(
            (total, { amounts }) => total.plus(amounts.get(batch.id) ?? nothing),
            nothing,
          );
          expect(reached.toFixed()).toBe(flow.batchTotal.toFixed());
        }
      }),
      { numRuns: 60 },
    );
  });

  it('needs to be looked for only in what it can have come into: everything else told as well says nothing more', () => {
    fc.assert(
      fc.property(randomSeason, (records) => {
        const season = openSeason(records);
        const everything = {
          lots: new Map(season.lots().map(({ id, movements }) => [id.toString(), movements])),
          finishes: season.ofType('pile.finished'),
          applications: season.applications(),
          batches: new Set(season.batches().map(({ id }) => id.toString())),
        };
        const followed = [
          ...season.lots().map(({ id }) => ({ lots: new Set<string>([id]) })),
          ...season.batches().map(({ id }) => ({ lots: new Set<string>(), batch: id })),
        ];
        for (const following of followed)
          expect(new Flow(season, following).log).toEqual(new Flow(season, following, everything).log);
      }),
      { numRuns: 60 },
    );
  });
});
