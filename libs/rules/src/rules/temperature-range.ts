import { asOf, numberIn, pressureAtElevation, saturationMgPerL, type Batch, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, worst, type Judgement } from '../engine/judgement.ts';
import { temperature } from '../engine/parameter.ts';
import { checkRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { brewingEnded } from '../judging/draws.ts';
import { timeOf } from '../judging/when.ts';
import { oxygenMinimum } from './oxygen-minimum.ts';
import { say, type Said } from '../words/index.ts';

interface Warmth {
  readonly recordId: string;
  readonly at: number;
  readonly celsius: number;
}

/** Temperatures written down with a reading or a check. */
function temperaturesOf(batch: Batch): readonly Warmth[] {
  const found: Warmth[] = [];
  for (const { recordId, at, temperatureC } of batch.oxygen)
    if (temperatureC !== null) found.push({ recordId, at: at.at, celsius: temperatureC });
  for (const { id, at, data } of batch.checks) {
    const celsius = data.temperature === undefined ? null : numberIn(data.temperature, 'Cel');
    if (celsius !== null) found.push({ recordId: id, at: at.at, celsius });
  }
  return found.sort((a, b) => a.at - b.at);
}

/** Oxygen that water of this temperature can hold, mg/L; null outside the range of the equations. */
function holds(season: Season, celsius: number, at: number): number | null {
  if (celsius < 0 || celsius > 45) return null;
  const elevation = season.operation === null ? undefined : asOf(season.operation, at).elevation;
  return saturationMgPerL(celsius, pressureAtElevation(elevation === undefined ? 0 : (numberIn(elevation, 'm') ?? 0)));
}

/** Temperature of the brew, and the room it leaves for oxygen. */
export const temperatureRange = defineRule({
  id: 'temperature-range',
  revision: 2,
  title: 'Temperature of the brew',
  reason:
    'Cold tea brews slowly and warm tea fast; and the warmer the water, the less oxygen it holds above your limit. What is too warm in the afternoon was often right in the morning.',
  basis: 'practice',
  citation: 'common practice, no source; saturation by the Benson & Krause equations as published by USGS',
  severity: 'notice',
  packs: ['practice'],
  parameters: () =>
    z.object({
      leastF: temperature('[degF]', 55, 'Lowest brew temperature.'),
      mostF: temperature('[degF]', 80, 'Highest brew temperature.'),
    }),
  chosenAt: 'the reading',
  looksAt: {
    kinds: ['batch', 'operation'],
    records: [...tankRecords, ...checkRecords],
  },
  judge: {
    batch(batch, { limits, now, season, book: rules }) {
      const start = batch.brewStart;
      if (start === null) return notApplicable(limits(now), say('common.noFood'));
      const end = brewingEnded(batch)?.at ?? Infinity;
      const judgements = temperaturesOf(batch)
        .filter(({ at }) => at >= start.at && at <= end)
        .map(({ recordId, at, celsius }): Judgement => {
          const book = limits(at);
          const { leastF, mostF } = book.parameters;
          const written = numberIn({ value: celsius, unit: 'Cel' }, '[degF]') ?? NaN;
          // Converted to and fro, 80 °F must stay 80 °F.
          const f = Math.round(written * 1e9) / 1e9;
          const room = holds(season, celsius, at);
          const needed = oxygenMinimum.limitsIn(rules, at).parameters.minimumMgPerL;
          const headroom =
            room === null
              ? null
              : say('temperature-range.headroom', {
                  room,
                  difference: Math.abs(room - needed),
                  way: room < needed ? say('temperature-range.less') : say('temperature-range.more'),
                  limit: needed,
                });
          const evidence = {
            figures: [
              { name: 'temperatureF', value: f, unit: '[degF]', limit: f < leastF ? leastF : mostF },
              ...(room === null ? [] : [{ name: 'oxygenHeadroomMgPerL', value: room - needed, unit: 'mg/L' }]),
            ],
            recordIds: [recordId],
            since: at,
          };
          const said = (): Said =>
            say('temperature-range.said', { f, at: timeOf(season, at), leastF, mostF, headroom });
          return f < leastF || f > mostF ? broken(book, said, evidence) : met(book, said, evidence);
        });
      return (
        worst(judgements, (n) => say('temperature-range.outside', { n })) ??
        notApplicable(limits(start.at), say('temperature-range.none'))
      );
    },
  },
});
