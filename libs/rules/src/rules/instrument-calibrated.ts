import { addDays, asOf, daysBetween, endOfDay, numberIn, type Instrument } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { days, mostDays } from '../engine/parameter.ts';
import { defineRule, type Given, type Owed } from '../engine/rule.ts';
import { driftsOf, readingsBeside, whereRead } from '../judging/readings.ts';
import { dayOf } from '../judging/water.ts';
import { say, type Said } from '../words/index.ts';

const parameters = () =>
  z.object({
    membraneDays: days(0, 'Days for which a calibration of a membrane probe counts; 0 = the same day.'),
    opticalDays: days(30, 'Days for which a calibration of an optical probe or a kit counts.'),
  });
type P = z.output<ReturnType<typeof parameters>>;

/** For how many days a calibration counts; 0 = the same day, null = no period is set for this kind. */
function validDays(instrument: Instrument, at: number, optical: number, membrane: number): number | null {
  const { kind, validFor } = asOf(instrument, at);
  const given = validFor === undefined ? null : numberIn(validFor, 'd');
  const own = given === null ? null : Math.min(given, mostDays);
  if (kind === 'membraneProbe') return membrane;
  if (kind === 'opticalProbe' || kind === 'dropKit') return own === null ? optical : Math.min(optical, own);
  return own;
}

/** By when a meter in use is calibrated or checked again; one that is checked on the day of use waits for no day. */
function nextCheck(instrument: Instrument, { limits, season, now, reach }: Given<P>): Owed | null {
  const last = driftsOf(instrument).at(-1);
  const { opticalDays, membraneDays } = limits(now).parameters;
  const valid = validDays(instrument, now, opticalDays, membraneDays);
  if (instrument.retired !== undefined || last === undefined || valid === null || valid === 0) return null;
  if (reach.readingsWith(instrument.id).length === 0) return null;
  const until = addDays(dayOf(season, last.record.at.at), Math.floor(valid));
  return { at: endOfDay(until, season.timeZone), what: say('due.calibrate') };
}

/** Each reading against the last calibration or check of its instrument. */
export const instrumentCalibrated = defineRule({
  id: 'instrument-calibrated',
  revision: 2,
  title: 'Meter calibrated or checked before use',
  reason:
    'A reading is worth what its meter is worth. Membrane probes drift within hours of a change of air pressure, optical ones and kits over weeks.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'notice',
  packs: ['practice'],
  parameters,
  owes: { instrument: nextCheck },
  perBatch: ['instrument'],
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
    instrument(instrument, { limits, season, now, reach, beside }) {
      const checks = driftsOf(instrument);
      const code = instrument.registered.code;
      const daysFrom = new Map<string, number>();
      // A meter is read thousands of times a season, on few days.
      const age = (from: string, to: string): number => {
        const key = `${from} ${to}`;
        const known = daysFrom.get(key) ?? daysBetween(from, to);
        daysFrom.set(key, known);
        return known;
      };
      const judgements: Judgement[] = [];
      let lastMet: Judgement | null = null;
      for (const reading of readingsBeside(season, reach, instrument, beside)) {
        const { at } = reading;
        const book = limits(at.at);
        const valid = validDays(instrument, at.at, book.parameters.opticalDays, book.parameters.membraneDays);
        if (valid === null) {
          judgements.push(notApplicable(book, say('instrument-calibrated.noPeriod', { code })));
          continue;
        }
        const day = dayOf(season, at.at);
        const said = (): Said => say('instrument-calibrated.read', { code, where: whereRead(season, reading), day });
        const period =
          valid === 0 ? say('instrument-calibrated.sameDay') : say('instrument-calibrated.validDays', { valid });
        const last = checks.findLast(({ record }) => record.at.at <= at.at);
        if (last === undefined) {
          judgements.push(
            broken(book, () => say('instrument-calibrated.never', { said: said(), period }), {
              recordIds: [reading.id],
              since: at.at,
            }),
          );
          continue;
        }
        const checked = dayOf(season, last.record.at.at);
        const least = at.from === at.to ? age(checked, day) : age(checked, dayOf(season, at.from));
        const most = at.from === at.to ? least : age(checked, dayOf(season, at.to));
        const evidence = {
          figures: [{ name: 'calibrationAgeDays', value: age(checked, day), unit: 'd', limit: valid }],
          recordIds: [reading.id, last.record.id],
          since: at.at,
        };
        const words = (): Said => say('instrument-calibrated.last', { said: said(), checked, period });
        if (most <= valid) lastMet = met(book, words, evidence);
        else if (least > valid) judgements.push(broken(book, words, evidence));
        else judgements.push(unknown(book, () => say('instrument-calibrated.dayUnsure', { said: words() }), evidence));
      }
      if (lastMet !== null) judgements.push(lastMet);
      return (
        worst(judgements, (n) => say('common.moreReadings', { n })) ??
        notApplicable(limits(now), say('instrument-calibrated.unread'))
      );
    },
  },
});
