import { z } from 'zod';
import { broken, due, met, notApplicable, unknown } from '../engine/judgement.ts';
import { amount } from '../engine/parameter.ts';
import { tankRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { readingWords, surelyAbove } from '../judging/reading.ts';
import { between, chlorineBounds, firstFills, sourceCode, surelyBetween } from '../judging/water.ts';
import { timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** Chloramine: only a measured residual after treatment counts. */
export const chloramineHandled = defineRule({
  id: 'chloramine-handled',
  revision: 3,
  title: 'Chloramine dealt with and measured',
  reason:
    'Chloramine does not leave with air overnight as free chlorine does, and print disagrees on whether vitamin C neutralizes it. So neither hours nor a dose count, only total chlorine measured after the treatment.',
  basis: 'practice',
  citation:
    'common practice, no source (0.1 mg/L); chloraminated water standing may take days: a water utility, 2015, read 2026-11-25; ascorbic acid ineffective on monochloramine: Basu & De Souza 2011, J. Water Supply AQUA 60(3):167, read 2026-11-25',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
      limitMgPerL: amount('mg/L', 0.1, 'Total chlorine at or below this counts as dealt with.'),
    }),
  chosenAt: 'the end of the fill',
  looksAt: {
    kinds: ['batch', 'source'],
    records: [...tankRecords, ...waterRecords, 'batch.chlorineMeasured'],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const fills = firstFills(batch);
      const fill =
        fills.find((each) => each.disinfectant === 'chloramine') ??
        fills.find((each) => each.disinfectant === 'unknown');
      const last = fills.at(-1);
      if (fill === undefined || last === undefined) {
        return notApplicable(
          limits(last?.finished.at ?? now),
          last === undefined ? say('common.noFill') : say('chloramine-handled.none'),
        );
      }
      const book = limits(fill.finished.at);
      const limit = book.parameters.limitMgPerL;
      const code = sourceCode(season, fill.sourceId);
      const first = batch.brewStart;
      const neutralizer = batch.ingredients.findLast(
        (each) => each.kind === 'neutralizer' && (first === null || each.at.from <= first.to),
      );
      const treated =
        neutralizer !== undefined && neutralizer.at.at > last.finished.at ? neutralizer.at : last.finished;
      const reading = between(batch.chlorine, treated, first).findLast((each) => each.data.total !== undefined);
      const bounds = reading === undefined ? null : chlorineBounds(reading, 'total');
      const recordIds = [
        ...fills.map((each) => each.recordId),
        ...(neutralizer === undefined ? [] : [neutralizer.recordId]),
      ];
      if (reading?.data.total !== undefined && bounds !== null) {
        const said = say('chloramine-handled.said', {
          reading: readingWords(reading.data.total),
          at: timeOf(season, reading.at.at),
        });
        const evidence = {
          figures: [
            {
              name: 'totalChlorineMgPerL',
              value: bounds.least,
              unit: 'mg/L',
              ...(bounds.least === bounds.most || !Number.isFinite(bounds.most)
                ? {}
                : { range: [bounds.least, bounds.most] as const }),
              limit,
            },
          ],
          recordIds: [...recordIds, reading.id],
          since: reading.at.at,
        };
        if (first !== null && !surelyBetween(reading.at, treated, first))
          return unknown(book, say('chloramine-handled.orderUnsure', { said }), evidence);
        if (bounds.most <= limit) return met(book, say('chloramine-handled.gone', { said }), evidence);
        if (surelyAbove(bounds, limit)) {
          return first === null
            ? due(
                book,
                reading.at.at,
                say('due.treatWater'),
                say('chloramine-handled.still', { said, limit }),
                evidence,
              )
            : broken(book, say('chloramine-handled.fed', { said, limit }), evidence);
        }
        return unknown(book, say('chloramine-handled.cannotTell', { said, limit }), evidence);
      }
      if (fill.disinfectant === 'unknown') {
        return unknown(book, say('chloramine-handled.waterUnknown', { code }), { recordIds });
      }
      if (first === null) {
        return due(book, last.finished.at, say('due.measureTotal'), say('chloramine-handled.treatFirst', { code }), {
          recordIds,
        });
      }
      const free =
        between(batch.chlorine, treated, first).length > 0 ? say('chloramine-handled.freeTellsNothing') : null;
      return neutralizer !== undefined
        ? unknown(book, say('chloramine-handled.neutralizerOnly', { code, more: free }), { recordIds })
        : broken(book, say('chloramine-handled.airOnly', { code, more: free }), { recordIds, since: first.at });
    },
  },
});
