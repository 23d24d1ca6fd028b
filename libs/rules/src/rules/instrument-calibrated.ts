import { asOf, daysBetween, numberIn, type Instrument } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { days } from '../engine/parameter.ts';
import { defineRule } from '../engine/rule.ts';
import { driftsOf, whereRead } from '../judging/readings.ts';
import { dayOf } from '../judging/water.ts';
import { dayWords } from '../judging/when.ts';

/** For how many days a calibration counts; 0 = the same day, null = no period is set for this kind. */
function validDays(instrument: Instrument, at: number, optical: number, membrane: number): number | null {
  const { kind, validFor } = asOf(instrument, at);
  const own = validFor === undefined ? null : numberIn(validFor, 'd');
  if (kind === 'membraneProbe') return membrane;
  if (kind === 'opticalProbe' || kind === 'dropKit') return own === null ? optical : Math.min(optical, own);
  return own;
}

/** Each reading against the last calibration or check of its instrument. */
export const instrumentCalibrated = defineRule({
  id: 'instrument-calibrated',
  revision: 1,
  title: 'Meter calibrated or checked before use',
  reason:
    'A reading is worth what its meter is worth. Membrane probes drift within hours of a change of air pressure, optical ones and kits over weeks.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'notice',
  packs: ['practice'],
  parameters: z.object({
    membraneDays: days(0, 'Days for which a calibration of a membrane probe counts; 0 = the same day.'),
    opticalDays: days(30, 'Days for which a calibration of an optical probe or a kit counts.'),
  }),
  chosenAt: 'the reading',
  looksAt: {
    kinds: ['instrument', 'batch'],
    records: [
      'instrument.registered',
      'instrument.revised',
      'instrument.calibrated',
      'instrument.checked',
      'batch.oxygenMeasured',
      'batch.chlorineMeasured',
    ],
  },
  judge: {
    instrument(instrument, { limits, season, now, reach }) {
      const checks = driftsOf(instrument);
      const code = instrument.registered.code;
      const judgements = reach.readingsWith(instrument.id).map((reading): Judgement => {
        const book = limits(reading.at.at);
        const valid = validDays(instrument, reading.at.at, book.parameters.opticalDays, book.parameters.membraneDays);
        if (valid === null) return notApplicable(book, `No period is set for ${code}.`);
        const day = dayOf(season, reading.at.at);
        const said = (): string => `${code} was read in ${whereRead(season, reading)} on ${dayWords(day)}`;
        const period =
          valid === 0 ? 'it is calibrated or checked on the day' : `a calibration or check counts for ${valid} days`;
        const last = checks.findLast(({ record }) => record.at.at <= reading.at.at);
        if (last === undefined) {
          return broken(book, () => `${said()} without a calibration or check before it; ${period}.`, {
            recordIds: [reading.id],
            since: reading.at.at,
          });
        }
        const ages = [reading.at.from, reading.at.to].map((at) =>
          daysBetween(dayOf(season, last.record.at.at), dayOf(season, at)),
        );
        const [least = 0, most = least] = ages;
        const evidence = {
          figures: [
            {
              name: 'calibrationAgeDays',
              value: daysBetween(dayOf(season, last.record.at.at), day),
              unit: 'd',
              limit: valid,
            },
          ],
          recordIds: [reading.id, last.record.id],
          since: reading.at.at,
        };
        const words = (): string =>
          `${said()}, last calibrated or checked on ${dayWords(dayOf(season, last.record.at.at))}; ${period}.`;
        if (most <= valid) return met(book, words, evidence);
        return least > valid
          ? broken(book, words, evidence)
          : unknown(book, `${words()} The day of the reading is not sure.`, evidence);
      });
      return (
        worst(judgements, (n) => `${n} more ${n === 1 ? 'reading is' : 'readings are'} like it.`) ??
        notApplicable(limits(now), 'No reading was taken with it.')
      );
    },
  },
});
