import { acres, gal, id, ordinary, type Beside } from '../season.ts';
import { brewed, type WorkedCase } from './case.ts';

const supplied = (statementGiven: 'yes' | 'no' | 'unknown') => {
  const season = ordinary();
  brewed(season);
  season.add('tea.supplied', '06-03 09:00', {
    ...{ batchId: id('T-14'), volume: gal(60), to: { name: 'neighbouring orchard' }, statementGiven, sold: 'no' },
  });
  return season;
};
const trained = (when: string | null, beside: Beside = {}) => {
  const season = ordinary();
  season.add('person.registered', '01-01 08:00', { personId: id('Ines'), personal: { name: 'Ines Harrow' } });
  if (when !== null)
    season.add('person.trained', when, { personId: id('Ines'), topic: 'tea handling', by: 'farm office' }, beside);
  brewed(season).applied('A-1', '06-03 07:00', '06-03 08:00');
  return season;
};
const typed = (when: string, beside: Beside) => {
  const season = ordinary();
  brewed(season).oxygen(when, 7, {}, beside);
  return season;
};
const applied = (area: boolean) => {
  const season = ordinary();
  season.add('person.registered', '01-01 08:00', {
    ...{ personId: id('Ines'), personal: { name: 'Ines Harrow', address: '12 Quillfen Lane' } },
  });
  brewed(season).applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
    targets: [{ fieldId: id('North 4'), ...(area ? { area: acres(4) } : {}) }],
  });
  return season;
};
const reviewed = (when: string | null, beside: Beside = {}) => {
  const season = ordinary();
  brewed(season).applied('A-1', '06-03 07:00', '06-03 08:00').closed('06-03 09:00', gal(0));
  if (when !== null)
    season.add(
      'batch.reviewed',
      when,
      { batchId: id('T-14'), throughSeq: 1000, meaning: 'reviewed', statement: 'I have read these records.' },
      beside,
    );
  return season;
};
const second = (code: string) => {
  const season = ordinary();
  brewed(season);
  season.add('batch.opened', '06-05 05:00', {
    ...{ batchId: id('other'), code, kind: 'aeratedTea', vesselId: id('Tote 2') },
  });
  return season;
};
const named = (lot: string) => {
  const season = ordinary().lot(lot, 'compost');
  season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-9');
  return season;
};

export const recordCases: readonly WorkedCase[] = [
  {
    ruleId: 'tea-supplied',
    words: 'tea passed on with a statement, or without',
    about: 'T-14',
    write: (side) => supplied(side === 'within' ? 'yes' : 'no'),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'whether one was given', write: () => supplied('unknown'), verdict: 'unknown' },
    unsure: 'a paper is asked for, not a time',
    chosenAt: '06-03 09:00',
  },
  {
    ruleId: 'person-trained',
    words: 'trained 365 days before spraying, or 366 (21 CFR 112.21: yearly)',
    about: 'Ines',
    write: (side, beside) => trained(side === 'within' ? '2025-06-03 00:10' : '2025-06-02 23:50', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'that anybody trained her', write: () => trained(null), verdict: 'broken' },
    unsure: { minutes: 20, verdict: 'unknown' },
    chosenAt: '06-03 07:00',
    stricter: { parameters: { validDays: 364 }, verdict: 'broken' },
  },
  {
    ruleId: 'record-timely',
    words: 'a reading typed 4 h after it was taken, or a minute later (common practice, no source)',
    about: 'T-14',
    kind: 'batch',
    write: (side, beside) =>
      typed(side === 'within' ? '06-02 12:00' : '06-02 11:59', { ...beside, enteredAt: '06-02 16:00' }),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'when it was typed: it came on Friday',
      write: () => typed('06-02 12:00', { enteredAt: 'not said', recordedAt: '06-05 18:00' }),
      verdict: 'broken',
    },
    unsure: { minutes: 30, verdict: 'unknown' },
    chosenAt: '06-02 11:59',
    whileOff: 'met',
    stricter: { parameters: { tankHours: 3 }, verdict: 'broken' },
  },
  {
    ruleId: 'record-complete',
    words: 'an application with the area that was treated, or without (7 CFR 205.103, 21 CFR 112.60)',
    about: 'A-1',
    write: (side) => applied(side === 'within'),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'the area', write: () => applied(false), verdict: 'broken' },
    unsure: 'members are asked for, not times',
    chosenAt: '06-03 07:00',
    stricter: 'its figures are those of the review: the next case',
  },
  {
    ruleId: 'record-complete',
    words: 'reviewed 30 days after the closing, or a minute later (common practice, no source)',
    about: 'T-14',
    kind: 'batch',
    write: (side, beside) => reviewed(side === 'within' ? '07-03 09:00' : '07-03 09:01', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'that anybody reviewed it', write: () => reviewed(null), verdict: 'broken' },
    unsure: 'a signature has the time of the service’s clock',
    chosenAt: '06-03 09:00',
    stricter: { parameters: { reviewDays: 29 }, verdict: 'broken' },
    neverAmended: 'a signature is only ever followed by another',
  },
  {
    ruleId: 'record-consistent',
    words: 'a second batch with a code of its own, or with the code of the first (common practice, no source)',
    about: 'T-14',
    write: (side) => second(side === 'within' ? 'T-15' : 'T-14'),
    verdicts: { within: 'nothing', past: 'caution' },
    unknown: {
      words: 'that there is a second one',
      write() {
        const season = ordinary();
        brewed(season);
        return season;
      },
      verdict: 'nothing',
    },
    unsure: 'codes are compared, not times',
    chosenAt: '06-01 05:00',
  },
  {
    ruleId: 'reference-known',
    words: 'the lot that went in on record, or another one (common practice, no source)',
    about: 'T-14',
    write: (side) => named(side === 'within' ? 'C-9' : 'C-8'),
    verdicts: { within: 'met', past: 'unknown' },
    unknown: { words: 'which lot it was', write: () => named('C-8'), verdict: 'unknown' },
    unsure: 'a record is there or not',
    chosenAt: '06-02 06:00',
    stricter: 'its figure is how long a record may wait: records.test.ts',
  },
  {
    ruleId: 'rule-book-adopted',
    words: 'an adoption that names a rule, or none that there is',
    about: 'operation',
    kind: 'operation',
    write: (side) =>
      ordinary().adopted('05-01 00:00', [
        { ruleId: side === 'within' ? 'hold-maximum' : 'no-such-rule', parameters: { limitHours: 7 } },
      ]),
    verdicts: { within: 'met', past: 'caution' },
    unknown: { words: 'that anything was adopted', write: () => ordinary(), verdict: 'notApplicable' },
    unsure: 'entries are looked at, not times',
    chosenAt: '05-01 00:00',
    neverAmended: 'an adoption is only ever followed by another',
  },
];
