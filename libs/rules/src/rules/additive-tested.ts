import type { Batch } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, due, met, notApplicable, unknown } from '../engine/judgement.ts';
import { amount, days } from '../engine/parameter.ts';
import { tankRecords, testRecords } from '../engine/looks-at.ts';
import { defineRule, type Bench } from '../engine/rule.ts';
import { additivesIn, testsOfSystem, type TeaTest } from '../judging/tea-tests.ts';
import { dayOf } from '../judging/water.ts';
import { dayWords } from '../judging/when.ts';

const dayMs = 86_400_000;

/** The tests that count for a batch, newest last, by the limits of the book at its brew start. */
export function additiveTests(bench: Bench, batch: Batch): readonly TeaTest[] {
  const start = batch.brewStart?.at ?? bench.now;
  const { coliPer100mL: coli, enterococciPer100mL: enterococci } = additiveTested.limitsIn(
    bench.book,
    start,
  ).parameters;
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
  citation: 'NOSB recommendation (task force report 2004, vote 2006), advisory, never codified; limits from memory',
  severity: 'minor',
  packs: ['us-organic'],
  parameters: z.object({
    coliPer100mL: amount('{CFU}/(100.mL)', 126, 'Highest E. coli.'),
    enterococciPer100mL: amount('{CFU}/(100.mL)', 33, 'Highest enterococci.'),
    results: amount('{results}', 2, 'Good results of the same system, the last ones.'),
    resultDays: days(14, 'Days that a laboratory may take.'),
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
      if (start === undefined || names.length === 0) return notApplicable(book, 'No additive is in this tea.');
      const tests = additiveTests(given, batch);
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
        return broken(
          book,
          `Tea with ${what}: the test of ${bad.batch.code} on ${dayWords(dayOf(season, bad.at))} was above ${coliPer100mL} E. coli or ${enterococciPer100mL} enterococci in 100 mL. Keep 120 or 90 days to the harvest, and find the cause.`,
          evidence,
        );
      }
      if (systemProven(tests, needed))
        return met(
          book,
          `Tea with ${what}: the last ${needed} tests of this system were within ${coliPer100mL} E. coli and ${enterococciPer100mL} enterococci in 100 mL.`,
          evidence,
        );
      const analysed = new Set(
        batch.samples.flatMap((each) => (each.type === 'batch.analysed' ? [each.data.sampleId] : [])),
      );
      const pending = batch.samples.find((each) => each.type === 'batch.sampled' && !analysed.has(each.data.sampleId));
      if (pending !== undefined) {
        const by = pending.at.at + resultDays * dayMs;
        if (now <= by)
          return due(
            book,
            by,
            "record the laboratory's result",
            `Tea with ${what}: the result of a sample is pending. Until then 120 or 90 days to the harvest are kept.`,
            { ...evidence, recordIds: [pending.id] },
          );
      }
      if (tests.some(({ verdict }) => verdict === 'open')) {
        return unknown(
          book,
          `Tea with ${what}: a result is missing or does not tell whether it is within the limits. Until then 120 or 90 days to the harvest are kept.`,
          { ...evidence, recordIds: tests.map(({ record }) => record.id) },
        );
      }
      return caution(
        book,
        `Tea with ${what}: ${last.length} of ${needed} good tests of this system are there, so 120 or 90 days to the harvest are kept.`,
        evidence,
      );
    },
  },
});
