import { addDays, asOf, instantOf, startOfDay, type Fill, type Instant } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, due, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { days, leftOpen } from '../engine/parameter.ts';
import { tankRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { atEitherEnd } from '../judging/at-either-end.ts';
import { waterOn } from '../judging/water-tests.ts';
import { dayOf, sourceCode } from '../judging/water.ts';
import { say } from '../words/index.ts';

/** Each fill's water on the day it was drawn. */
export const sourceTested = defineRule({
  id: 'source-tested',
  revision: 3,
  title: 'Water tested for E. coli, and none detected',
  reason:
    'Brewing multiplies what the water brings along, so tea made from animal materials counts as treated only when no generic E. coli is found in 100 mL of its water. It is a single result each time; nothing is averaged away.',
  basis: 'regulation',
  citation:
    "21 CFR 112.51(a), in a state's adoption, read 2026-11-25; how long a test counts is common practice, no source",
  severity: 'major',
  packs: ['us-produce-safety'],
  parameters: () =>
    z.object({
      validDays: leftOpen('atMost', days(365, 'Days for which a test counts from the day of sampling.')),
      resultDays: leftOpen(
        'atMost',
        days(14, 'Days that a laboratory may take; after that a pending result is missing.'),
      ),
    }),
  chosenAt: 'the fill',
  looksAt: {
    kinds: ['batch', 'source'],
    records: [...tankRecords, ...waterRecords],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const judge = (fill: Fill, at: Instant): Judgement => {
        const book = limits(fill.finished.at);
        const { validDays, resultDays } = book.parameters;
        const code = sourceCode(season, fill.sourceId);
        const source = season.source(fill.sourceId);
        if (source === undefined) {
          return unknown(book, say('water.sourceUnknown'), { recordIds: [fill.recordId] });
        }
        const { kind } = asOf(source, at);
        const water = waterOn(season, source, kind, at, validDays);
        const day = dayOf(season, at);
        const sampled = dayOf(season, water.test === undefined ? at : instantOf(water.test.data.sampledAt));
        const evidence = {
          figures:
            water.ageDays === undefined
              ? []
              : [{ name: 'testAgeDays', value: water.ageDays, unit: 'd', limit: validDays }],
          recordIds: [fill.recordId, ...water.recordIds],
        };
        switch (water.state) {
          case 'good':
            return met(book, say('source-tested.good', { code, sampled, day }), evidence);
          case 'report':
            return met(book, say('source-tested.report', { code, day }), evidence);
          case 'bad':
            return broken(book, say('source-tested.bad', { code, sampled, day }), evidence);
          case 'reopened':
            return broken(book, say('source-tested.reopened', { code, sampled, day }), evidence);
          case 'expired':
            return broken(
              book,
              say('source-tested.expired', { code, sampled, ageDays: water.ageDays ?? 0, day, validDays }),
              evidence,
            );
          case 'untested':
            return broken(
              book,
              kind === 'municipal'
                ? say('source-tested.untestedMunicipal', { code, day })
                : say('source-tested.untested', { code, day }),
              evidence,
            );
          case 'cannotTell':
            return unknown(book, say('source-tested.cannotTell', { code, sampled }), evidence);
          case 'pending': {
            const by = startOfDay(addDays(sampled, resultDays), season.timeZone);
            return now <= by
              ? due(book, by, say('due.laboratory'), say('source-tested.pending', { code, sampled }), evidence)
              : unknown(book, say('source-tested.neverRecorded', { code, sampled }), evidence);
          }
        }
      };
      const judgements = batch.fills.map((fill) => atEitherEnd(fill.finished, (at) => judge(fill, at)));
      return worst(judgements, () => say('water.otherFills')) ?? notApplicable(limits(now), say('common.noFill'));
    },
  },
});
