import { gal, id, mgPerL, ordinary, SeasonBuilder } from '../season.ts';
import type { WorkedCase } from './case.ts';

const town = (disinfectant: 'chlorine' | 'chloramine' | 'unknown') =>
  ordinary().source('Town', { kind: 'municipal', disinfectant });
const filled = (season: SeasonBuilder) =>
  season.batch('T-14').filled('06-02 05:00', gal(250), 'Town').airOn('06-02 05:00');

/** A farm with a well and a tank, and nothing else. */
const well = (more: Parameters<SeasonBuilder['described']>[0] = {}) =>
  new SeasonBuilder().described(more).source('W1').vessel('Tote 2');
const filledLate = (season: SeasonBuilder, beside = {}) => {
  season.batch('T-14').filled('06-02 23:50', gal(250), 'W1', beside);
  return season;
};

const chloramine = (total: ReturnType<typeof mgPerL>, plusMinusMinutes = 0) => {
  const season = town('chloramine').material('vitamin C', { kind: 'neutralizer' }).lot('N-1', 'vitamin C');
  const batch = filled(season).neutralized('06-02 06:00', 'N-1');
  season.add(
    'batch.chlorineMeasured',
    '06-02 06:30',
    { batchId: id('T-14'), method: 'kit', total },
    { plusMinusMinutes },
  );
  batch.fed('06-02 08:00', 'C-1');
  return season;
};

const toppedUp = (disinfectant: 'chlorine' | 'unknown', free: number | null) => {
  const season = town(disinfectant);
  const batch = season.batch('T-14').filled('06-02 05:00', gal(190)).airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
  if (free !== null) batch.chlorine('06-02 11:50', { free: mgPerL(free) });
  batch.filled('06-02 12:00', gal(60), 'Town');
  return season;
};

const assessed = (day: string | null, farmStatus?: string, beside = {}) => {
  const season = well(farmStatus === undefined ? {} : { farmStatus });
  if (day !== null)
    season.add('source.documented', `${day} 09:00`, { sourceId: id('W1'), covers: 'assessment', from: day });
  return filledLate(season, beside);
};

export const waterCases: readonly WorkedCase[] = [
  {
    ruleId: 'chlorine-dissipated',
    words: 'compost 20 min after air on, or 14 (common practice, no source: 15 at least)',
    about: 'T-14',
    write(side, beside) {
      const season = town('chlorine');
      filled(season).fed(side === 'within' ? '06-02 05:20' : '06-02 05:14', 'C-1', undefined, beside);
      return season;
    },
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'what the water is disinfected with',
      write() {
        const season = town('unknown');
        filled(season).fed('06-02 05:10', 'C-1');
        return season;
      },
      verdict: 'unknown',
    },
    unsure: { minutes: 10, verdict: 'unknown' },
    chosenAt: '06-02 05:00',
    stricter: { parameters: { advisedMinutes: 30, limitMinutes: 25 }, verdict: 'broken' },
  },
  {
    ruleId: 'chloramine-handled',
    words: 'total chlorine of 0.1 mg/L after the neutralizer, or 0.11 (common practice, no source)',
    about: 'T-14',
    write: (side, beside) => chloramine(mgPerL(side === 'within' ? 0.1 : 0.11), beside.plusMinusMinutes),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'a strip between 0 and 0.5 mg/L',
      write: () => chloramine(mgPerL(0, { qualifier: 'between', high: 0.5 })),
      verdict: 'unknown',
    },
    unsure: { minutes: 45, verdict: 'unknown' },
    chosenAt: '06-02 05:00',
    stricter: { parameters: { limitMgPerL: 0.05 }, verdict: 'broken' },
  },
  {
    ruleId: 'topup-water',
    words: '60 gal of town water with 0.1 mg/L onto living tea, or with 0.11 (common practice, no source)',
    about: 'T-14',
    write: (side) => toppedUp('chlorine', side === 'within' ? 0.1 : 0.11),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'what the water is disinfected with',
      write: () => toppedUp('unknown', null),
      verdict: 'unknown',
    },
    unsure: 'a reading speaks of the water from a day before the fill to an hour after it',
    chosenAt: '06-02 12:00',
    stricter: { parameters: { limitMgPerL: 0.05 }, verdict: 'broken' },
  },
  {
    ruleId: 'source-tested',
    words: 'a sample 365 days before the fill, or 366 (how long a test counts: common practice, no source)',
    about: 'T-14',
    write: (side, beside) => filledLate(well().tested('W1', side === 'within' ? '2025-06-02' : '2025-06-01'), beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'below 10 in 100 mL does not tell whether there was one',
      write: () => filledLate(well().tested('W1', '05-01', { value: 10, unit: '{CFU}/(100.mL)', qualifier: '<' })),
      verdict: 'unknown',
    },
    unsure: { minutes: 20, verdict: 'unknown' },
    chosenAt: '06-02 23:50',
    stricter: { parameters: { validDays: 364 }, verdict: 'broken' },
  },
  {
    ruleId: 'source-suitable',
    words: 'a covered farm’s well assessed 365 days before the fill, or 366 (21 CFR 112.43: yearly)',
    about: 'T-14',
    write: (side, beside) => assessed(side === 'within' ? '2025-06-02' : '2025-06-01', 'covered', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'whether the farm is covered, and no assessment',
      write: () => assessed(null),
      verdict: 'unknown',
    },
    unsure: { minutes: 20, verdict: 'unknown' },
    chosenAt: '06-02 23:50',
    stricter: { parameters: { assessmentDays: 364 }, verdict: 'broken' },
  },
];
