import { at, gal, id, lb, mgPerL, ordinary, type Beside, type SeasonBuilder } from '../season.ts';
import { brewed, bucket, loaded, type WorkedCase } from './case.ts';

const recipe = (amount: Parameters<ReturnType<typeof brewed>['fed']>[2]) => {
  const season = ordinary();
  season.add('recipe.published', '01-05 09:00', {
    ...{ recipeId: id('R'), edition: 1, code: 'R', kind: 'aeratedTea', basisVolume: gal(250) },
    ingredients: [{ materialId: id('compost'), amount: lb(5) }],
  });
  season
    .batch('T-14', undefined, { recipeId: id('R') })
    .filled('06-02 05:00')
    .fed('06-02 06:00', 'C-1', amount);
  return season;
};

const fedThenDrawn = (lot: string | null, drawn: string, beside: Beside = {}) => {
  const season = ordinary();
  const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00');
  if (lot !== null) batch.fed('06-02 06:00', lot);
  return loaded(season, drawn, beside);
};

/** Air off at 06:30 on 3 June, a load half an hour later, and its spraying. */
const held = (finished: string, air: boolean, beside: Beside = {}): SeasonBuilder => {
  const season = ordinary();
  const batch = season.batch('T-14').filled('06-02 05:00');
  if (air) batch.airOn('06-02 05:00');
  batch.fed('06-02 06:00', 'C-1');
  if (air) batch.airOff('06-03 06:30').checked('06-03 06:45');
  loaded(season, '06-03 07:00');
  season.add(
    'application.made',
    finished,
    {
      ...{ applicationId: id('A-1'), code: 'A-1', targets: [{ fieldId: id('North 4') }] },
      ...{ draws: [{ drawId: id('load') }], startedAt: at('06-03 07:30'), finishedAt: at(finished) },
      ...{ method: 'soilDrench', applicator: id('Ines') },
    },
    beside,
  );
  return season;
};

const smelled = (odour: 'earthy' | 'rotten' | null) => {
  const season = ordinary();
  const batch = brewed(season);
  batch.checked('06-02 20:00', odour === null ? { foam: 'some' } : { odour });
  batch.applied('A-1', '06-03 07:00', '06-03 08:00');
  return season;
};

export const brewCases: readonly WorkedCase[] = [
  {
    ruleId: 'recipe-followed',
    words: '6 lb of compost where the recipe says 5 (a fifth more), or 6.01 (common practice, no source)',
    about: 'T-14',
    write: (side) => recipe(lb(side === 'within' ? 6 : 6.01)),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'what a bucket of compost weighs', write: () => recipe(bucket), verdict: 'unknown' },
    unsure: 'amounts are compared, whenever they went in',
    chosenAt: '06-02 06:00',
    stricter: { parameters: { compostPercent: 10 }, verdict: 'broken' },
  },
  {
    ruleId: 'brew-minimum',
    words: 'drawn 20 h after the compost, or a minute sooner (common practice, no source)',
    about: 'load',
    kind: 'draw',
    write: (side, beside) => fedThenDrawn('C-1', side === 'within' ? '06-03 02:00' : '06-03 01:59', beside),
    verdicts: { within: 'caution', past: 'broken' },
    unknown: {
      words: 'when the compost went in',
      write: () => fedThenDrawn(null, '06-03 06:00'),
      verdict: 'unknown',
    },
    unsure: { minutes: 30, verdict: 'unknown' },
    chosenAt: '06-03 01:59',
    stricter: { parameters: { limitHours: 21 }, verdict: 'broken' },
  },
  {
    ruleId: 'brew-maximum',
    words: 'drawn 48 h after the molasses, or a minute later (common practice, no source)',
    about: 'load',
    kind: 'draw',
    write: (side, beside) => fedThenDrawn('M-1', side === 'within' ? '06-04 06:00' : '06-04 06:01', beside),
    verdicts: { within: 'caution', past: 'broken' },
    unknown: {
      words: 'whether what went in feeds microbes: 50 h are too long if it does',
      write: () => fedThenDrawn('not recorded', '06-04 08:00'),
      verdict: 'unknown',
    },
    unsure: { minutes: 30, verdict: 'unknown' },
    chosenAt: '06-04 06:01',
    stricter: { parameters: { withFoodLimitHours: 40 }, verdict: 'broken' },
  },
  {
    ruleId: 'air-continuous',
    words: 'air back after 60 min, or a minute later (common practice, no source)',
    about: 'T-14',
    write(side, beside) {
      const season = ordinary();
      brewed(season)
        .airOff('06-02 20:00')
        .airOn(side === 'within' ? '06-02 21:00' : '06-02 21:01', beside)
        .oxygen('06-02 23:00', 7);
      return season;
    },
    verdicts: { within: 'caution', past: 'broken' },
    unknown: {
      words: 'whether there was any air',
      write() {
        const season = ordinary();
        season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1');
        return season;
      },
      verdict: 'unknown',
    },
    unsure: { minutes: 10, verdict: 'unknown' },
    chosenAt: '06-02 20:00',
    stricter: { parameters: { limitMinutes: 50 }, verdict: 'broken' },
  },
  {
    ruleId: 'oxygen-minimum',
    words: '5 mg/L brought back to 6.5 within 60 min, or a minute later (common practice, no source)',
    about: 'T-14',
    write(side, beside) {
      const season = ordinary();
      brewed(season)
        .oxygen('06-02 20:00', 5)
        .oxygen(side === 'within' ? '06-02 21:00' : '06-02 21:01', 6.5, {}, beside)
        .applied('A-1', '06-03 07:00', '06-03 08:00');
      return season;
    },
    verdicts: { within: 'caution', past: 'broken' },
    unknown: {
      words: 'a strip that says below 8 mg/L',
      write() {
        const season = ordinary();
        brewed(season)
          .oxygen('06-02 20:00', mgPerL(8, { qualifier: '<' }))
          .applied('A-1', '06-03 07:00', '06-03 08:00');
        return season;
      },
      verdict: 'unknown',
    },
    unsure: { minutes: 30, verdict: 'unknown' },
    chosenAt: '06-02 20:00',
    stricter: { parameters: { correctedMinutes: 30 }, verdict: 'broken' },
  },
  {
    ruleId: 'oxygen-checked',
    words: 'the first look at the oxygen 16 h after the compost, or a minute later (common practice, no source)',
    about: 'T-14',
    kind: 'batch',
    write(side, beside) {
      const season = ordinary();
      brewed(season)
        .oxygen(side === 'within' ? '06-02 22:00' : '06-02 22:01', 7, {}, beside)
        .oxygen('06-03 04:00', 7)
        .applied('A-1', '06-03 07:00', '06-03 08:00');
      return season;
    },
    verdicts: { within: 'caution', past: 'broken' },
    unknown: {
      words: 'when the brew began',
      write() {
        const season = ordinary();
        season
          .batch('T-14')
          .filled('06-02 05:00')
          .airOn('06-02 05:00')
          .oxygen('06-02 12:00', 7)
          .applied('A-1', '06-03 07:00', '06-03 08:00');
        return season;
      },
      verdict: 'notApplicable',
    },
    unsure: { minutes: 30, verdict: 'unknown' },
    chosenAt: '06-02 06:00',
    stricter: { parameters: { limitHours: 15 }, verdict: 'broken' },
  },
  {
    ruleId: 'oxygen-possible',
    words:
      '10.9 mg/L at 20 °C, or 10.93: 120 % of 9.092 (APHA 4500-O table, from memory) are 10.91; that 120 % is too much: common practice, no source',
    about: 'T-14',
    write(side) {
      const season = ordinary();
      brewed(season).oxygen('06-02 12:00', side === 'within' ? 10.9 : 10.93, {
        temperature: { value: 20, unit: 'Cel' },
      });
      return season;
    },
    verdicts: { within: 'met', past: 'caution' },
    unknown: {
      words: 'how warm the water was',
      write() {
        const season = ordinary();
        brewed(season).oxygen('06-02 12:00', 14);
        return season;
      },
      verdict: 'notApplicable',
    },
    unsure: 'what water can hold does not ask for the time',
    chosenAt: '06-02 12:00',
    stricter: { parameters: { limitPercent: 110 }, verdict: 'caution' },
  },
  {
    ruleId: 'temperature-range',
    words: '80 °F, or 80.1 (common practice, no source)',
    about: 'T-14',
    write(side) {
      const season = ordinary();
      const value = side === 'within' ? 80 : 80.1;
      brewed(season).checked('06-02 12:00', { temperature: { value, unit: '[degF]' } });
      return season;
    },
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'how warm it was',
      write() {
        const season = ordinary();
        brewed(season).checked('06-02 12:00');
        return season;
      },
      verdict: 'notApplicable',
    },
    unsure: 'degrees are compared, whenever they were read',
    chosenAt: '06-02 12:00',
    stricter: { parameters: { mostF: 75 }, verdict: 'broken' },
  },
  {
    ruleId: 'odour-sound',
    words: 'an earthy smell before it was sprayed, or a rotten one (common practice, no source)',
    about: 'T-14',
    write: (side) => smelled(side === 'within' ? 'earthy' : 'rotten'),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'what it smelled like', write: () => smelled(null), verdict: 'notApplicable' },
    unsure: 'a foul smell stands against whatever was drawn after it; only hours apart are tried here',
    chosenAt: '06-02 20:00',
  },
  {
    ruleId: 'hold-maximum',
    words: 'sprayed 8 h after the air went off, or a minute later (common practice, no source)',
    about: 'load',
    kind: 'draw',
    write: (side, beside) => held(side === 'within' ? '06-03 14:30' : '06-03 14:31', true, beside),
    verdicts: { within: 'caution', past: 'broken' },
    unknown: {
      words: 'whether there was any air',
      write: () => held('06-03 14:30', false),
      verdict: 'unknown',
    },
    unsure: { minutes: 30, verdict: 'unknown' },
    chosenAt: '06-03 06:30',
    stricter: { parameters: { limitHours: 7 }, verdict: 'broken' },
  },
];
