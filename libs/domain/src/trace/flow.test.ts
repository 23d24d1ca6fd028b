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
});
