import { gal, id, lb, ordinary, type Beside, type SeasonBuilder } from '../season.ts';
import { bucket, type WorkedCase } from './case.ts';

/** A pound of a lot put into T-14. */
const put = (season: SeasonBuilder, lot: string, when: string, beside: Beside = {}) => {
  season.batch('T-14').filled('06-01 05:00').airOn('06-01 05:00').fed(when, lot, lb(1), beside);
  return season;
};
const kelp = () => ordinary().material('kelp', { kind: 'nutrient', microbialFood: 'yes' }).lot('K-1', 'kelp');

const recalled = (lot: string) => {
  const season = put(ordinary().lot('M-2', 'molasses'), 'M-1', '06-02 06:00');
  season.add('lot.recalled', '07-12 08:00', { lotId: id(lot), reason: 'supplier notice' });
  return season;
};
const heldUntil = (released: string, beside: Beside = {}) => {
  const season = ordinary();
  season.add('lot.held', '06-01 08:00', { lotId: id('M-1'), reason: 'seal broken' });
  season.add('lot.released', released, { lotId: id('M-1') }, beside);
  return put(season, 'M-1', '06-02 06:00');
};
const drum = (second: ReturnType<typeof gal> | typeof bucket) => {
  const season = ordinary().lot('M-2', 'molasses', gal(50));
  season.batch('T-14').filled('06-01 05:00').fed('06-02 06:00', 'M-2', gal(25)).fed('06-02 07:00', 'M-2', second);
  return season;
};

export const inputCases: readonly WorkedCase[] = [
  {
    ruleId: 'input-approved',
    words: 'used on the last day of the approval, or the day after (7 CFR 205.105)',
    about: 'K-1',
    write: (side, beside) =>
      put(
        kelp().approved('kelp', '2026-01-01', side === 'within' ? '2026-06-02' : '2026-06-01'),
        'K-1',
        '06-02 23:50',
        beside,
      ),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'of what material the lot is',
      write: () => put(ordinary().lot('K-1', 'unheard of'), 'K-1', '06-02 06:00'),
      verdict: 'unknown',
    },
    unsure: { minutes: 20, verdict: 'unknown' },
    chosenAt: '06-02 23:50',
  },
  {
    ruleId: 'input-in-date',
    words: 'used on the date of the lot, or the day after (common practice, no source)',
    about: 'M-2',
    write: (side, beside) =>
      put(
        ordinary().lot('M-2', 'molasses', lb(10), { expiresOn: side === 'within' ? '2026-06-02' : '2026-06-01' }),
        'M-2',
        '06-02 23:50',
        beside,
      ),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'what date the lot has',
      write: () => put(ordinary().lot('M-2', 'molasses'), 'M-2', '06-02 06:00'),
      verdict: 'notApplicable',
    },
    unsure: { minutes: 20, verdict: 'unknown' },
    chosenAt: '06-02 23:50',
  },
  {
    ruleId: 'input-not-held',
    words: 'released a minute before its use, or a minute after (common practice, no source)',
    about: 'M-1',
    write: (side, beside) => heldUntil(side === 'within' ? '06-02 05:59' : '06-02 06:01', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'that it was ever held',
      write: () => put(ordinary(), 'M-1', '06-02 06:00'),
      verdict: 'notApplicable',
    },
    unsure: { minutes: 5, verdict: 'unknown' },
    chosenAt: '06-02 06:00',
  },
  {
    ruleId: 'input-recalled',
    words: 'another lot of the same molasses recalled, or the one that was used (common practice, no source)',
    about: 'M-1',
    write: (side) => recalled(side === 'within' ? 'M-2' : 'M-1'),
    verdicts: { within: 'notApplicable', past: 'broken' },
    unknown: {
      words: 'whether any of it was used',
      write() {
        const season = ordinary();
        season.add('lot.recalled', '07-12 08:00', { lotId: id('M-1'), reason: 'supplier notice' });
        return season;
      },
      verdict: 'caution',
    },
    unsure: 'a recall counts whether it came before the use or after',
    chosenAt: '07-12 08:00',
  },
  {
    ruleId: 'lot-balance',
    words: '51 gal used of a drum of 50, 2 % over as weighing errs, or a hundredth more (common practice, no source)',
    about: 'M-2',
    write: (side) => drum(gal(side === 'within' ? 26 : 26.01)),
    verdicts: { within: 'caution', past: 'broken' },
    unknown: { words: 'what a bucket of it holds', write: () => drum(bucket), verdict: 'unknown' },
    unsure: 'amounts are added up, whenever they were taken',
    chosenAt: '06-02 07:00',
    stricter: { parameters: { packagedPercent: 1 }, verdict: 'broken' },
  },
];
