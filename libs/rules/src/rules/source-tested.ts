import { addDays, instantOf, startOfDay } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { days } from '../engine/parameter.ts';
import { tankRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { waterOn } from '../judging/water-tests.ts';
import { dayOf, sourceAt, sourceCode } from '../judging/water.ts';
import { dayWords } from '../judging/when.ts';

/** Each fill's water on the day it was drawn. */
export const sourceTested = defineRule({
  id: 'source-tested',
  revision: 1,
  title: 'Water tested for E. coli, and none detected',
  reason:
    'Brewing multiplies what the water brings along, so tea made from animal materials counts as treated only when no generic E. coli is found in 100 mL of its water. It is a single result each time; nothing is averaged away.',
  basis: 'regulation',
  citation:
    "21 CFR 112.51(a), in a state's adoption, read 2026-11-25; how long a test counts is common practice, no source",
  severity: 'major',
  packs: ['us-produce-safety'],
  parameters: z.object({
    validDays: days(365, 'Days for which a test counts from the day of sampling.'),
    resultDays: days(14, 'Days that a laboratory may take; after that a pending result is missing.'),
  }),
  chosenAt: 'the fill',
  looksAt: {
    kinds: ['batch', 'source'],
    records: [...tankRecords, ...waterRecords],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const judgements = batch.fills.map((fill): Judgement => {
        const at = fill.finished.at;
        const book = limits(at);
        const { validDays, resultDays } = book.parameters;
        const code = sourceCode(season, fill.sourceId);
        const source = season.source(fill.sourceId);
        const kind = sourceAt(season, fill.sourceId, at)?.kind;
        if (source === undefined || kind === undefined) {
          return unknown(book, 'The source of this water is not recorded.', { recordIds: [fill.recordId] });
        }
        const water = waterOn(season, source, kind, at, validDays);
        const day = dayWords(dayOf(season, at));
        const sampled = water.test === undefined ? '' : dayWords(dayOf(season, instantOf(water.test.data.sampledAt)));
        const evidence = {
          figures:
            water.ageDays === undefined
              ? []
              : [{ name: 'testAgeDays', value: water.ageDays, unit: 'd', limit: validDays }],
          recordIds: [fill.recordId, ...water.recordIds],
        };
        switch (water.state) {
          case 'good':
            return met(book, `${code}: no E. coli detected in the sample of ${sampled}, current on ${day}.`, evidence);
          case 'report':
            return met(book, `${code}: the utility's report covers ${day}.`, evidence);
          case 'bad':
            return broken(
              book,
              `${code}: E. coli was detected in the sample of ${sampled}, the last before the fill on ${day}.`,
              evidence,
            );
          case 'reopened':
            return broken(
              book,
              `${code}: E. coli was detected in the sample of ${sampled}, the next after the fill on ${day}, so every batch since the last good sample is in question.`,
              evidence,
            );
          case 'expired':
            return broken(
              book,
              `${code}: the last sample, of ${sampled}, was ${water.ageDays ?? 0} days old at the fill on ${day}; a test counts for ${validDays} days.`,
              evidence,
            );
          case 'untested':
            return broken(
              book,
              `${code}: no test for E. coli${kind === 'municipal' ? " and no utility's report" : ''} covers the fill on ${day}.`,
              evidence,
            );
          case 'cannotTell':
            return unknown(
              book,
              `${code}: the result of the sample of ${sampled} does not tell whether E. coli is in 100 mL.`,
              evidence,
            );
          case 'pending': {
            const test = water.test;
            const by = startOfDay(
              addDays(dayOf(season, test === undefined ? at : instantOf(test.data.sampledAt)), resultDays),
              season.timeZone,
            );
            return now <= by
              ? due(
                  book,
                  by,
                  "record the laboratory's result",
                  `${code}: the result of the sample of ${sampled} is pending.`,
                  evidence,
                )
              : unknown(book, `${code}: the result of the sample of ${sampled} was never recorded.`, evidence);
          }
        }
      });
      return (
        worst(judgements, () => 'Other fills are like it.') ?? notApplicable(limits(now), 'No fill is recorded yet.')
      );
    },
  },
});
