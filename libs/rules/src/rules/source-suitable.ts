import { asOf, type Fill, type Instant } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { byRegulation, days } from '../engine/parameter.ts';
import { tankRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { atEitherEnd } from '../judging/at-either-end.ts';
import { coversDay, dayOf, sourceAt, sourceCode } from '../judging/water.ts';
import { say } from '../words/index.ts';

/** No untreated surface water in tea, and a current written assessment of the source. */
export const sourceSuitable = defineRule({
  id: 'source-suitable',
  revision: 3,
  title: 'Water fit for tea',
  reason:
    'Untreated surface water makes an untreated tea of whatever goes into it. For the other sources a covered farm looks once a year, in writing, at what could reach them.',
  basis: 'regulation',
  citation: "21 CFR 112.51(a), in a state's adoption, and 112.43 (89 FR 37448), both read 2026-11-25",
  severity: 'major',
  packs: ['us-produce-safety'],
  parameters: () =>
    z.object({
      assessmentDays: byRegulation('atMost', days(365, 'Days for which a written assessment counts.')),
    }),
  chosenAt: 'the fill',
  looksAt: {
    kinds: ['batch', 'source', 'operation'],
    records: [...tankRecords, ...waterRecords],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const judge = (fill: Fill, at: Instant): Judgement => {
        const book = limits(fill.finished.at);
        const source = season.source(fill.sourceId);
        const then = sourceAt(season, fill.sourceId, at);
        const code = sourceCode(season, fill.sourceId);
        const recordIds = [fill.recordId];
        if (source === undefined || then === null) return unknown(book, say('water.sourceUnknown'), { recordIds });
        const treated = (then.treatment ?? []).length > 0;
        if (then.kind === 'surface' && !treated) {
          return broken(book, say('source-suitable.surface', { code }), { recordIds });
        }
        const day = dayOf(season, at);
        if (then.kind === 'municipal') return met(book, say('source-suitable.public', { code }), { recordIds });
        const assessment = source.documents.find(
          ({ data }) => data.covers === 'assessment' && coversDay(data, day, book.parameters.assessmentDays),
        );
        if (assessment !== undefined)
          return met(book, say('source-suitable.assessed', { code, day }), {
            recordIds: [...recordIds, assessment.id],
          });
        const covered = season.operation === null ? undefined : asOf(season.operation, at).farmStatus;
        const said = say('source-suitable.notAssessed', { code, day });
        return covered !== undefined && /^covered/i.test(covered)
          ? broken(book, say('common.stop', { said }), { recordIds })
          : unknown(book, say('source-suitable.standing', { said }), {
              recordIds,
            });
      };
      const judgements = batch.fills.map((fill) => atEitherEnd(fill.finished, (at) => judge(fill, at)));
      return worst(judgements, () => say('water.otherFills')) ?? notApplicable(limits(now), say('common.noFill'));
    },
  },
});
