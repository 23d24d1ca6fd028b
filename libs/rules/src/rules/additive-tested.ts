import type { Batch } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable, unknown } from '../engine/judgement.ts';
import { amount, days, leftOpen } from '../engine/parameter.ts';
import { tankRecords, testRecords } from '../engine/looks-at.ts';
import { defineRule, type Bench } from '../engine/rule.ts';
import { additivesIn, testsOfSystem, type TeaTest } from '../judging/tea-tests.ts';
import { dayOf } from '../judging/water.ts';
import { say } from '../words/index.ts';

const dayMs = 86_400_000;

/** Figures that tests of tea are compared with. */
interface Counts {
  readonly coliPer100mL: number;
  readonly enterococciPer100mL: number;
}

/** The tests that count for a batch, newest last; by what the guideline itself asks at its brew start unless told otherwise. */
export function additiveTests(bench: Bench, batch: Batch, counts?: Counts): readonly TeaTest[] {
  const start = batch.brewStart?.at ?? bench.now;
  const { coliPer100mL: coli, enterococciPer100mL: enterococci } =
    counts ?? additiveTested.askedIn(bench.book, start).parameters;
  return testsOfSystem(bench.season, batch, start, { coli, enterococci });
}

/** Two good results of the same system, the last two. */
export const systemProven = (tests: readonly TeaTest[], needed: number): boolean => {
  const last = tests.filter(({ verdict }) => verdict !== 'open').slice(-needed);
  return last.length >= needed && last.every(({ verdict }) => verdict === 'good');
};

/** Tea with additives: two results of the same system, else the waiting time. */
export const additiveTested = defineRule({
  id: 'additive-tested',
  revision: 1,
  title: 'Tea with additives tested',
  reason:
    'Nutrients grow whatever is in the tank, the wanted and the unwanted. The organic advisory board asked for two good tests of a system before its tea is used without the waiting time of raw manure, and for new ones after a change.',
  basis: 'guideline',
  citation:
    'NOSB formal recommendation of 2006-11-09 (vote 14 to 0; it builds on the Compost Tea Task Force report of 2004), its cover page read 2026-11-25, advisory, never codified; 126 E. coli and 33 enterococci in 100 mL second-hand, as a laboratory prints the two for bathing water, read 2026-11-27',
  severity: 'minor',
  packs: ['us-organic'],
  parameters: () =>
    z.object({
      coliPer100mL: leftOpen('atMost', amount('{CFU}/(100.mL)', 126, 'Highest E. coli.')),
      enterococciPer100mL: leftOpen('atMost', amount('{CFU}/(100.mL)', 33, 'Highest enterococci.')),
      results: leftOpen('atLeast', amount('{results}', 2, 'Good results of the same system, the last ones.')),
      resultDays: leftOpen('atMost', days(14, 'Days that a laboratory may take.')),
    }),
  chosenAt: 'brew start',
  looksAt: {
    kinds: ['batch', 'vessel', 'lot', 'material'],
    records: [...tankRecords, ...testRecords],
  },
  judge: {
    batch(batch, given) {
      const { limits, season, now } = given;
      const start = batch.brewStart?.at;
      const book = limits(start ?? now);
      const names = additivesIn(season, batch);
      if (start === undefined || names.length === 0) return notApplicable(book, say('additive-tested.none'));
      const tests = additiveTests(given, batch, book.parameters);
      const { results: needed, resultDays, coliPer100mL, enterococciPer100mL } = book.parameters;
      const what = names.join(', ');
      const last = tests.filter(({ verdict }) => verdict !== 'open').slice(-needed);
      const evidence = {
        figures: [
          { name: 'goodResults', value: last.filter(({ verdict }) => verdict === 'good').length, limit: needed },
        ],
        recordIds: last.map(({ record }) => record.id),
      };
      const bad = last.find(({ verdict }) => verdict === 'bad');
      if (bad !== undefined) {
        const found = {
          ...{ what, code: bad.batch.code, on: dayOf(season, bad.at) },
          ...{ coli: coliPer100mL, enterococci: enterococciPer100mL },
        };
        return broken(book, say('additive-tested.bad', found), { ...evidence, own: say('additive-tested.own', found) });
      }
      if (systemProven(tests, needed))
        return met(
          book,
          say('additive-tested.proven', { what, needed, coli: coliPer100mL, enterococci: enterococciPer100mL }),
          evidence,
        );
      const analysed = new Set(
        batch.samples.flatMap((each) => (each.type === 'batch.analysed' ? [each.data.sampleId] : [])),
      );
      const pending = batch.samples.find((each) => each.type === 'batch.sampled' && !analysed.has(each.data.sampleId));
      if (pending !== undefined) {
        const by = pending.at.at + resultDays * dayMs;
        if (now <= by)
          return due(book, by, say('due.laboratory'), say('additive-tested.pending', { what }), {
            ...evidence,
            recordIds: [pending.id],
          });
      }
      if (tests.some(({ verdict }) => verdict === 'open')) {
        return unknown(book, say('additive-tested.open', { what }), {
          ...evidence,
          recordIds: tests.map(({ record }) => record.id),
        });
      }
      return caution(book, say('additive-tested.tooFew', { what, n: last.length, needed }), evidence);
    },
  },
});
