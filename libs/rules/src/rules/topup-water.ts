import { decimal, type Batch, type Fill } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { amount, percent } from '../engine/parameter.ts';
import { tankRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { readingWords, surelyAbove } from '../judging/reading.ts';
import { hourMs } from '../judging/span.ts';
import { chlorineBounds, sourceCode } from '../judging/water.ts';
import { timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** The last reading that can speak of this water: from a day before the fill to an hour after it. */
function readingFor(batch: Batch, fill: Fill, which: 'free' | 'total') {
  return batch.chlorine.findLast(
    ({ at, data }) =>
      data[which] !== undefined && at.at >= fill.started.at - 24 * hourMs && at.at <= fill.finished.at + hourMs,
  );
}

/** Chlorinated water onto living tea. */
export const topupWater = defineRule({
  id: 'topup-water',
  revision: 3,
  title: 'Water added to living tea',
  reason:
    'Chlorine in top-up water meets a tank full of life. There is no time to air it out first, so only a reading counts, or so little water that it does not matter.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
      limitMgPerL: amount('mg/L', 0.1, 'Chlorine at or below this counts as gone.'),
      sharePercent: percent(5, 'Share of the content up to which added water does not matter.'),
    }),
  chosenAt: 'the fill',
  looksAt: {
    kinds: ['batch', 'source'],
    records: [...tankRecords, ...waterRecords, 'batch.chlorineMeasured'],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const judgements = batch.fills.flatMap((fill): Judgement[] => {
        if (!fill.ontoLivingTea || fill.disinfectant === 'none') return [];
        const book = limits(fill.finished.at);
        const { limitMgPerL: limit, sharePercent } = book.parameters;
        const share = decimal(fill.shareOfContent).times(100).toNumber();
        const chloramine = fill.disinfectant === 'chloramine';
        const said = say('topup-water.said', {
          reading: readingWords(fill.quantity),
          code: sourceCode(season, fill.sourceId),
          at: timeOf(season, fill.finished.at),
        });
        const figures = [{ name: 'sharePercent', value: share, unit: '%', limit: sharePercent }];
        if (share <= sharePercent)
          return [met(book, say('topup-water.little', { said, share }), { figures, recordIds: [fill.recordId] })];
        const which = chloramine ? 'total' : 'free';
        const reading = readingFor(batch, fill, which);
        const bounds = reading === undefined ? null : chlorineBounds(reading, which);
        const written = reading?.data[which];
        const recordIds = [fill.recordId, ...(reading === undefined ? [] : [reading.id])];
        if (bounds !== null && written !== undefined) {
          const found = say('topup-water.reading', {
            said,
            which: say(`water.${which}`),
            reading: readingWords(written),
          });
          const evidence = {
            figures: [...figures, { name: `${which}ChlorineMgPerL`, value: bounds.least, unit: 'mg/L', limit }],
            recordIds,
          };
          if (bounds.most <= limit) return [met(book, say('common.stop', { said: found }), evidence)];
          return [
            surelyAbove(bounds, limit)
              ? broken(book, say('topup-water.over', { said: found, limit }), evidence)
              : unknown(book, say('topup-water.cannotTell', { said: found, limit }), evidence),
          ];
        }
        if (fill.disinfectant === 'unknown')
          return [unknown(book, say('topup-water.waterUnknown', { said }), { figures, recordIds })];
        return [
          broken(
            book,
            say('topup-water.noReading', {
              ...{ said, share },
              disinfectant: say(`water.${fill.disinfectant}`),
              which: say(`water.${which}`),
            }),
            {
              figures,
              recordIds,
            },
          ),
        ];
      });
      return worst(judgements) ?? notApplicable(limits(batch.brewStart?.at ?? now), say('topup-water.none'));
    },
  },
});
