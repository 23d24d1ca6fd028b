import { gal, id, mgPerL, ordinary, type Beside, type SeasonBuilder } from '../season.ts';
import { brewed, type WorkedCase } from './case.ts';

const sprayer = (season: SeasonBuilder): SeasonBuilder => {
  season.add('equipment.registered', '2024-01-01 08:00', { equipmentId: id('S'), code: 'S', kind: 'sprayer' });
  return season;
};
const sprayed = (season: SeasonBuilder) => {
  brewed(season).applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId: id('S') });
  return season;
};
const cleaned = (when: string, beside: Beside = {}) => {
  const season = sprayer(ordinary());
  season.add('equipment.used', '06-01 08:00', { equipmentId: id('S'), what: 'kaolin clay', prohibited: 'no' });
  season.add('equipment.cleaned', when, { equipmentId: id('S'), method: 'rinse', rinsed: true }, beside);
  return sprayed(season);
};
const calibrated = (when: string, beside: Beside = {}) => {
  const season = sprayer(ordinary());
  season.add('equipment.calibrated', when, { equipmentId: id('S'), nozzles: 18 }, beside);
  return sprayed(season);
};

/** A brewer filled on 1 June, its last load drawn at a time that may be unsure. */
const running = (until: string, vesselId: string, beside: Beside = {}) => {
  const season = ordinary();
  season
    .batch('T-14', '06-01 04:00', { vesselId: id(vesselId) })
    .filled('06-01 05:00')
    .fed('06-01 06:00', 'C-1')
    .applied('A-1', until, until, 'North 4', gal(250), {}, beside)
    .closed('06-20 09:00', gal(0));
  return season;
};
const between = (when: string, beside: Beside = {}) => {
  const season = ordinary();
  season
    .batch('T-13', '06-01 04:00')
    .filled('06-01 05:00')
    .fed('06-01 06:00', 'C-1')
    .applied('A-0', '06-02 07:00', '06-02 08:00')
    .closed('06-02 09:00', gal(0));
  season.add('vessel.cleaned', when, { vesselId: id('Tote 2'), method: 'hot water', rinsed: true }, beside);
  season
    .batch('T-14', '06-03 04:00')
    .filled('06-03 05:00')
    .fed('06-03 06:00', 'C-1')
    .applied('A-1', '06-04 07:00', '06-04 08:00')
    .closed('06-04 09:00');
  return season;
};
const held = (previousContents: 'none' | 'other' | 'unknown') => {
  const season = ordinary().vessel('Tote 3', { previousContents });
  season.batch('T-14', undefined, { vesselId: id('Tote 3') }).filled('06-02 05:00');
  return season;
};

const read = (calibratedOn: string, beside: Beside = {}) => {
  const season = ordinary().instrument('P-1');
  season.add('instrument.calibrated', `${calibratedOn} 08:00`, { instrumentId: id('P-1'), standard: 'air' });
  season
    .batch('T-14')
    .filled('06-02 05:00')
    .fed('06-02 06:00', 'C-1')
    .oxygen('06-02 23:50', 7, { instrumentId: id('P-1') }, beside);
  return season;
};
const drifted = (reading: { value: number; unit: string }) => {
  const season = ordinary().instrument('P-1');
  brewed(season).oxygen('06-02 12:00', 7, { instrumentId: id('P-1') });
  season.add('instrument.checked', '06-10 08:00', {
    ...{ instrumentId: id('P-1'), standard: 'air', reading, expected: mgPerL(10) },
  });
  return season;
};

export const toolCases: readonly WorkedCase[] = [
  {
    ruleId: 'equipment-clean',
    words: 'a sprayer used for clay cleaned before the tea, or after it began (common practice, no source)',
    about: 'A-1',
    write: (side, beside) => cleaned(side === 'within' ? '06-03 06:45' : '06-03 07:15', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'which sprayer it was',
      write() {
        const season = ordinary();
        brewed(season).applied('A-1', '06-03 07:00', '06-03 08:00');
        return season;
      },
      verdict: 'notApplicable',
    },
    unsure: { minutes: 30, verdict: 'unknown' },
    chosenAt: '06-03 07:00',
  },
  {
    ruleId: 'equipment-calibrated',
    words: 'measured 365 days before it was used, or 366 (common practice, no source)',
    about: 'S',
    write: (side, beside) => calibrated(side === 'within' ? '2025-06-03 00:10' : '2025-06-02 23:50', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'that it was ever measured', write: () => sprayed(sprayer(ordinary())), verdict: 'broken' },
    unsure: { minutes: 20, verdict: 'unknown' },
    chosenAt: '06-03 07:00',
    stricter: { parameters: { validDays: 364 }, verdict: 'broken' },
  },
  {
    ruleId: 'fill-level',
    words: '300 gal in a tank of 300, or half a gallon more',
    about: 'T-14',
    write(side) {
      const season = ordinary();
      season.batch('T-14').filled('06-02 05:00', gal(side === 'within' ? 300 : 300.5));
      return season;
    },
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'how much the tank takes',
      write() {
        const season = ordinary();
        season.batch('T-14', undefined, { vesselId: id('Tote 9') }).filled('06-02 05:00');
        return season;
      },
      verdict: 'unknown',
    },
    unsure: 'volumes are compared, in the order of the records',
    chosenAt: '06-02 05:00',
  },
  {
    ruleId: 'volume-balance',
    words: '20 gal of 200 not accounted for, a tenth, or 21 (common practice, no source)',
    about: 'T-14',
    write(side) {
      const season = ordinary();
      season
        .batch('T-14')
        .filled('06-02 05:00', gal(200))
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(side === 'within' ? 170 : 169))
        .closed('06-03 09:00', gal(10));
      return season;
    },
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'what was left',
      write() {
        const season = ordinary();
        season
          .batch('T-14')
          .filled('06-02 05:00', gal(200))
          .fed('06-02 06:00', 'C-1')
          .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(150))
          .closed('06-03 09:00');
        return season;
      },
      verdict: 'unknown',
    },
    unsure: 'volumes are compared, not times',
    chosenAt: '06-03 09:00',
    stricter: { parameters: { limitPercent: 5 }, verdict: 'broken' },
  },
  {
    ruleId: 'vessel-clean',
    words: 'cleaned before the next fill, or after it (common practice, no source)',
    about: 'T-14',
    write: (side, beside) => between(side === 'within' ? '06-03 04:50' : '06-03 05:10', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'what the tank held before',
      write: () => running('06-02 12:00', 'Tote 9'),
      verdict: 'notApplicable',
    },
    unsure: { minutes: 30, verdict: 'unknown' },
    chosenAt: '06-03 05:00',
    stricter: 'its figures are those of a brewer that is never emptied: the next case',
  },
  {
    ruleId: 'vessel-clean',
    words: 'a brewer that ran for 14 days, or a minute longer (common practice, no source)',
    about: 'T-14',
    write: (side, beside) => running(side === 'within' ? '06-15 05:00' : '06-15 05:01', 'Tote 2', beside),
    verdicts: { within: 'caution', past: 'broken' },
    unknown: {
      words: 'what the tank held before',
      write: () => running('06-02 12:00', 'Tote 9'),
      verdict: 'notApplicable',
    },
    unsure: { minutes: 30, verdict: 'unknown' },
    chosenAt: '06-01 05:00',
    stricter: { parameters: { limitDays: 13 }, verdict: 'broken' },
  },
  {
    ruleId: 'vessel-history',
    words: 'a tote that held nothing before, or something that is no food (common practice, no source)',
    about: 'Tote 3',
    write: (side) => held(side === 'within' ? 'none' : 'other'),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'what it held', write: () => held('unknown'), verdict: 'unknown' },
    unsure: 'what it held is asked for, not when',
    chosenAt: '06-02 05:00',
  },
  {
    ruleId: 'instrument-calibrated',
    words: 'an optical probe 30 days after its calibration, or 31 (common practice, no source)',
    about: 'P-1',
    write: (side, beside) => read(side === 'within' ? '05-03' : '05-02', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'that it was ever calibrated',
      write() {
        const season = ordinary().instrument('P-1');
        brewed(season).oxygen('06-02 12:00', 7, { instrumentId: id('P-1') });
        return season;
      },
      verdict: 'broken',
    },
    unsure: { minutes: 20, verdict: 'unknown' },
    chosenAt: '06-02 23:50',
    stricter: { parameters: { opticalDays: 29 }, verdict: 'broken' },
  },
  {
    ruleId: 'instrument-drift',
    words: 'a meter that shows 9 for 10, a tenth off, or 8.9 (common practice, no source)',
    about: 'P-1',
    write: (side) => drifted(mgPerL(side === 'within' ? 9 : 8.9)),
    verdicts: { within: 'met', past: 'caution' },
    unknown: {
      words: 'what per cent are of mg/L',
      write: () => drifted({ value: 90, unit: '%' }),
      verdict: 'notApplicable',
    },
    unsure: 'figures are compared, whenever it was checked',
    chosenAt: '06-10 08:00',
    stricter: { parameters: { limitPercent: 5 }, verdict: 'caution' },
  },
];
