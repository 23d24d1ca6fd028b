import { acres, gal, id, lb, ordinary, type Beside, type SeasonBuilder } from '../season.ts';
import { brewed, manure, type WorkedCase } from './case.ts';

/** Tea of manure that nobody composted, on carrots at noon of 1 May. */
const rawTea = (ediblePart: 'root' | null): SeasonBuilder => {
  const season = manure(ordinary());
  season.add('pile.started', '02-01 08:00', {
    ...{ pileId: id('P-1'), code: 'P-1', method: 'passive', inputs: [{ lotId: id('Man-1'), quantity: lb(500) }] },
    carbonToNitrogen: 30,
  });
  season.add('pile.finished', '04-01 08:00', {
    ...{ pileId: id('P-1'), lotId: id('Y-1'), code: 'Y-1', materialId: id('own compost'), quantity: lb(400) },
  });
  if (ediblePart !== null) season.planting('crop', 'North 4', { ediblePart });
  season
    .batch('T-14', '04-30 04:00')
    .filled('04-30 05:00')
    .airOn('04-30 05:00')
    .fed('04-30 06:00', 'Y-1')
    .applied('A-1', '05-01 12:00', '05-01 12:00', 'North 4', gal(100));
  return season;
};
const harvested = (season: SeasonBuilder, when: string, field: string, beside: Beside = {}, plantingId?: string) => {
  season.add(
    'harvest.made',
    when,
    {
      ...{ harvestId: id('H-1'), code: 'H-1', fieldId: id(field), quantity: lb(1000), soldAs: 'organic' },
      ...(plantingId === undefined ? {} : { plantingId: id(plantingId) }),
    },
    beside,
  );
  return season;
};

const sprayed = (season: SeasonBuilder, more: Parameters<ReturnType<typeof brewed>['applied']>[5]) => {
  brewed(season).applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), more);
  return season;
};
const thinned = (disinfectant: 'none' | 'chlorine' | null) =>
  sprayed(disinfectant === null ? ordinary() : ordinary().source('D1', { disinfectant }), {
    dilutionVolume: gal(50),
    ...(disinfectant === null ? {} : { dilutionSourceId: id('D1') }),
  });
const mixed = (harmsTea: 'yes' | 'no', lotId: string) =>
  sprayed(ordinary().material('copper', { kind: 'mineral', harmsTea }).lot('Cu-1', 'copper'), {
    tankMix: [{ lotId: id(lotId), quantity: lb(1) }],
  });
const treated = (amount: number, field: string) =>
  sprayed(ordinary(), { targets: [{ fieldId: id(field), area: acres(amount) }] });

const boundary = {
  type: 'Polygon' as const,
  coordinates: [
    [
      [-74.2, 42.1],
      [-74.198, 42.1],
      [-74.198, 42.1016],
      [-74.2, 42.1],
    ],
  ],
};

const told = (when: string | null, beside: Beside = {}) => {
  const season = ordinary();
  season.add('field.exposed', '05-01 08:00', { fieldId: id('North 4'), substance: 'herbicide', how: 'drift' });
  if (when !== null) season.add('certifier.notified', when, { about: [id('North 4')], how: 'telephone' }, beside);
  return season;
};
const answered = (when: string, dueOn: string | null, beside: Beside = {}) => {
  const season = ordinary();
  const letter = season.add('certifier.wrote', '05-01 09:00', {
    ...{ reference: 'R-5', kind: 'condition', text: 'show the treatment record' },
    ...(dueOn === null ? {} : { dueOn }),
  });
  season.add('certifier.notified', when, { about: [letter], how: 'e-mail' }, beside);
  return season;
};

export const groundCases: readonly WorkedCase[] = [
  {
    ruleId: 'harvest-interval',
    words: 'carrots 120 days after raw manure tea, or 119 (7 CFR 205.203(c)(1)): 1 May and 120 days are 29 August',
    about: 'H-1',
    kind: 'harvest',
    write: (side, beside) =>
      harvested(rawTea('root'), side === 'within' ? '08-29 00:10' : '08-28 23:50', 'North 4', beside, 'crop'),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'what crop it was, 92 days after',
      write: () => harvested(rawTea(null), '08-01 09:00', 'North 4'),
      verdict: 'unknown',
    },
    unsure: { minutes: 20, verdict: 'unknown' },
    chosenAt: '05-01 12:00',
    stricter: { parameters: { soilContactDays: 121 }, verdict: 'broken' },
  },
  {
    ruleId: 'harvest-organic',
    words: 'three years to the day after a herbicide, or a day short of it (7 CFR 205.202(b))',
    about: 'H-1',
    write: (side, beside) =>
      harvested(
        ordinary().field('East', { lastProhibitedOn: side === 'within' ? '2023-07-14' : '2023-07-15' }),
        '07-14 00:10',
        'East',
        beside,
      ),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'how much of a drifting herbicide came down',
      write() {
        const season = ordinary();
        season.add('field.exposed', '05-01 08:00', { fieldId: id('North 4'), substance: 'herbicide', how: 'drift' });
        return harvested(season, '07-14 09:00', 'North 4');
      },
      verdict: 'unknown',
    },
    unsure: { minutes: 20, verdict: 'unknown' },
    chosenAt: '07-14 00:10',
    stricter: { parameters: { months: 37 }, verdict: 'broken' },
  },
  {
    ruleId: 'dilution-water',
    words: 'thinned with water without chlorine, or with it (common practice, no source)',
    about: 'A-1',
    write: (side) => thinned(side === 'within' ? 'none' : 'chlorine'),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'which water it was', write: () => thinned(null), verdict: 'unknown' },
    unsure: 'the water is asked for, not a time',
    chosenAt: '06-03 07:00',
  },
  {
    ruleId: 'tank-mix',
    words: 'something in the sprayer that does not harm tea, or does (common practice, no source)',
    about: 'A-1',
    write: (side) => mixed(side === 'within' ? 'no' : 'yes', 'Cu-1'),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'what the lot is', write: () => mixed('no', 'nobody knows'), verdict: 'unknown' },
    unsure: 'what is in the sprayer is asked for, not a time',
    chosenAt: '06-03 07:00',
  },
  {
    ruleId: 'area-possible',
    words: '6 acres of a field of 6, or 6.1 (common practice, no source)',
    about: 'A-1',
    write: (side) => treated(side === 'within' ? 6 : 6.1, 'North 4'),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'which field it was', write: () => treated(1, 'South 9'), verdict: 'unknown' },
    unsure: 'areas are compared, not times',
    chosenAt: '06-03 07:00',
    stricter: 'its figure is how far a drawn outline may err; the area of this field was written down',
  },
  {
    ruleId: 'field-located',
    words: 'a harvested field with its outline, or without (21 CFR 1.1315(a)(5))',
    about: 'West',
    write: (side) => harvested(ordinary().field('West', side === 'within' ? { boundary } : {}), '07-14 09:00', 'West'),
    verdicts: { within: 'met', past: 'unknown' },
    unknown: {
      words: 'where a bed lies, of which the field around it has no outline either',
      write: () => harvested(ordinary().field('West', { kind: 'bed', parentId: id('North 4') }), '07-14 09:00', 'West'),
      verdict: 'unknown',
    },
    unsure: 'where the field lies is asked for, not a time',
    chosenAt: '07-14 09:00',
  },
  {
    ruleId: 'notify-certifier',
    words: 'the certifier told 24 h after the drift, or a minute later (7 CFR 205.400(f): at once; 24 h are practice)',
    about: 'North 4',
    write: (side, beside) => told(side === 'within' ? '05-02 08:00' : '05-02 08:01', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'that anybody told the certifier', write: () => told(null), verdict: 'broken' },
    unsure: { minutes: 10, verdict: 'unknown' },
    chosenAt: '05-01 08:00',
    stricter: { parameters: { withinHours: 23 }, verdict: 'broken' },
  },
  {
    ruleId: 'certifier-due',
    words: 'a condition due on 30 June answered on that day, or the day after',
    about: 'operation',
    kind: 'operation',
    write: (side, beside) => answered(side === 'within' ? '06-30 23:59' : '07-01 00:01', '2026-06-30', beside),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'by when an answer is asked',
      write: () => answered('06-10 09:00', null),
      verdict: 'notApplicable',
    },
    unsure: { minutes: 10, verdict: 'unknown' },
    chosenAt: '05-01 09:00',
  },
];
