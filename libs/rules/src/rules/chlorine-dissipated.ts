import { z } from 'zod';
import { broken, due, met, notApplicable, unknown } from '../engine/judgement.ts';
import { amount, minutes } from '../engine/parameter.ts';
import { tankRecords, waterRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { judged } from '../judging/by-standing.ts';
import { either } from '../judging/order-unsure.ts';
import { readingWords, surelyAbove } from '../judging/reading.ts';
import { atLeast, minuteMs } from '../judging/span.ts';
import { between, chlorineBounds, firstFills, sourceCode, surelyBetween } from '../judging/water.ts';
import { besideLimit, spanFigure, spanWords, timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

/** Chlorinated water aerated, or measured, before the first ingredient. */
export const chlorineDissipated = defineRule({
  id: 'chlorine-dissipated',
  revision: 2,
  title: 'Chlorine gone before the food goes in',
  reason:
    'Free chlorine kills the organisms that the tea is brewed for. Vigorous air drives it off in time; a reading tells for sure, so it outranks the minutes either way. Chlorine fumes and test reagents: work with the lid open and wear gloves.',
  basis: 'practice',
  citation:
    'common practice, no source (15 to 20 min of air); air and sunlight neutralize free chlorine over time: USDA Forest Service tech tip 0523-1301-SDTDC, 2005, read 2026-11-25',
  severity: 'minor',
  packs: ['practice'],
  parameters: () =>
    z.object({
      advisedMinutes: minutes(20, 'Uninterrupted air before the first ingredient that you aim for.'),
      limitMinutes: minutes(15, 'Least uninterrupted air before the first ingredient.'),
      limitMgPerL: amount('mg/L', 0.1, 'Free chlorine at or below this counts as gone.'),
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
        fills.find((each) => each.disinfectant === 'chlorine') ?? fills.find((each) => each.disinfectant === 'unknown');
      const last = fills.at(-1);
      if (fill === undefined || last === undefined) {
        const book = limits(last?.finished.at ?? now);
        return notApplicable(book, last === undefined ? say('common.noFill') : say('chlorine-dissipated.none'));
      }
      const book = limits(fill.finished.at);
      const { advisedMinutes: advised, limitMinutes: limit, limitMgPerL } = book.parameters;
      const code = sourceCode(season, fill.sourceId);
      const first = batch.brewStart;
      const fillIds = fills.map((each) => each.recordId);
      const readings = between(batch.chlorine, last.finished, first).filter((each) => each.data.free !== undefined);
      const sure = readings.filter(({ at }) => first === null || surelyBetween(at, last.finished, first));
      return either(readings.at(-1), [sure.at(-1)], (reading) => {
        const bounds = reading === undefined ? null : chlorineBounds(reading, 'free');
        const said = reading?.data.free === undefined ? null : readingWords(reading.data.free);
        if (reading !== undefined && bounds !== null) {
          const evidence = {
            figures: [
              {
                name: 'freeChlorineMgPerL',
                value: bounds.least,
                unit: 'mg/L',
                ...(bounds.least === bounds.most || !Number.isFinite(bounds.most)
                  ? {}
                  : { range: [bounds.least, bounds.most] as const }),
                limit: limitMgPerL,
              },
            ],
            recordIds: [...fillIds, reading.id],
            since: reading.at.at,
          };
          if (bounds.most <= limitMgPerL) {
            return met(book, say('chlorine-dissipated.gone', { said, at: timeOf(season, reading.at.at) }), evidence);
          }
          if (surelyAbove(bounds, limitMgPerL)) {
            const words = say('chlorine-dissipated.still', {
              said,
              at: timeOf(season, reading.at.at),
              limit: limitMgPerL,
            });
            return first === null
              ? due(
                  book,
                  reading.at.at + limit * minuteMs,
                  say('due.measureFree'),
                  say('chlorine-dissipated.keepAir', { still: words }),
                  evidence,
                )
              : broken(book, say('chlorine-dissipated.fed', { still: words }), evidence);
          }
        }
        const strip = said === null ? null : say('chlorine-dissipated.minutesDecide', { said });
        const span = batch.preAerationMinutes;
        if (first === null) {
          const air = batch.airStarts.at(-1)?.at.at;
          if (air === undefined || (batch.airOff !== null && batch.airOff.at >= air)) {
            return due(
              book,
              last.finished.at,
              say('due.airOn'),
              say('chlorine-dissipated.giveAir', { code, advised }),
              {
                recordIds: fillIds,
              },
            );
          }
          const from = Math.max(air, last.finished.at);
          const [least, aim] = [from + limit * minuteMs, from + advised * minuteMs];
          const words = say('chlorine-dissipated.foodFrom', {
            code,
            aim: timeOf(season, aim),
            least: timeOf(season, least),
            strip,
          });
          return now < aim
            ? due(book, aim, say('due.firstIngredient'), words, { recordIds: fillIds })
            : met(book, words, { recordIds: fillIds });
        }
        const recordIds = [
          ...fillIds,
          ...batch.airStarts.map((each) => each.recordId),
          ...(batch.ingredients[0] === undefined ? [] : [batch.ingredients[0].recordId]),
        ];
        if (span === null) {
          return unknown(book, say('chlorine-dissipated.noAir', { code }), { recordIds });
        }
        const evidence = {
          figures: [spanFigure('preAerationMinutes', span, 'min', { advised, limit })],
          recordIds,
          since: first.at,
        };
        const standing = atLeast(span, limit, advised);
        if (fill.disinfectant === 'unknown' && standing !== 'within') {
          return unknown(
            book,
            say('chlorine-dissipated.waterUnknown', { code, span: spanWords(span, 'min') }),
            evidence,
          );
        }
        const neutralized = batch.ingredients.some((each) => each.kind === 'neutralizer' && each.at.at <= first.at);
        if (neutralized && (standing === 'over' || standing === 'maybeOver')) {
          return unknown(book, say('chlorine-dissipated.neutralized', { span: spanWords(span, 'min') }), evidence);
        }
        const aired = besideLimit(span, limit, 'min');
        return judged(
          book,
          standing,
          {
            within: say('chlorine-dissipated.within', { aired, strip }),
            pastAdvised: say('chlorine-dissipated.pastAdvised', { aired, limit, advised, strip }),
            over: say('chlorine-dissipated.over', { code, aired, limit, strip }),
            unsure: say('chlorine-dissipated.unsure', { span: spanWords(span, 'min'), limit, advised, strip }),
          },
          evidence,
        );
      });
    },
  },
});
