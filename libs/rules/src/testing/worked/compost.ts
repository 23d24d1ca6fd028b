import { fahrenheit, gal, id, lb, ordinary, type SeasonBuilder } from '../season.ts';
import { brewed, manure, type WorkedCase } from './case.ts';

/** An aerated pile of manure, begun on 1 March, hot on the 2nd, 3rd and 4th, cured and finished on 1 May. */
function pile(
  season: SeasonBuilder,
  { carbonToNitrogen = 30, third = 140 }: { carbonToNitrogen?: number | null; third?: number | null },
): SeasonBuilder {
  manure(season).add('pile.started', '03-01 08:00', {
    ...{ pileId: id('P-1'), code: 'P-1', method: 'staticAerated', inputs: [{ lotId: id('Man-1'), quantity: lb(500) }] },
    ...(carbonToNitrogen === null ? {} : { carbonToNitrogen }),
  });
  // Cool before and after, so that only three days count.
  for (const [day, f] of [
    ['03-01', 90],
    ['03-02', 140],
    ['03-03', third],
    ['03-04', 140],
    ['03-05', 90],
  ] as const)
    if (f !== null)
      season.add('pile.measured', `${day} 12:00`, { pileId: id('P-1'), temperatures: [{ value: fahrenheit(f) }] });
  season.add('pile.finished', '05-01 08:00', {
    ...{ pileId: id('P-1'), lotId: id('Own-1'), code: 'Own-1', materialId: id('own compost'), quantity: lb(400) },
    curedFrom: '2026-04-01',
  });
  return season;
}

const bought = (animalOrigin: 'yes' | 'no' | 'unknown') => {
  const season = ordinary().material('bought', { animalOrigin }).lot('B-1', 'bought');
  season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'B-1').fed('06-02 06:05', 'M-1');
  return season;
};

/** Two tests of tea with molasses before T-14. */
const tested = (second: { value: number; qualifier?: '<' }) => {
  const season = ordinary();
  for (const [name, day, coli] of [
    ['E-1', '05-22', { value: 126 }],
    ['E-2', '05-26', second],
  ] as const) {
    season.batch(name, `${day} 04:00`).filled(`${day} 05:00`).fed(`${day} 06:00`, 'C-1').fed(`${day} 06:05`, 'M-1');
    const sample = { batchId: id(name), sampleId: id(`S ${name}`) };
    season.add('batch.sampled', `${day} 12:00`, { ...sample, takenFrom: 'tank' });
    season.add('batch.analysed', `${day} 20:00`, {
      ...{ ...sample, laboratory: 'county laboratory' },
      results: [
        { analyte: 'E. coli', value: { ...coli, unit: '{CFU}/(100.mL)' } },
        { analyte: 'enterococci', value: { value: 33, unit: '{CFU}/(100.mL)' } },
      ],
    });
  }
  brewed(season).fed('06-02 06:05', 'M-1');
  return season;
};

const sprayed = (edibleParts?: 'present' | 'absent') => {
  const season = pile(ordinary(), {}).planting('lettuce', 'North 4');
  season
    .batch('T-14')
    .filled('06-02 05:00')
    .airOn('06-02 05:00')
    .fed('06-02 06:00', 'Own-1')
    .fed('06-02 06:05', 'M-1')
    .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
      method: 'foliar',
      ...(edibleParts === undefined ? {} : { edibleParts }),
    });
  return season;
};

export const compostCases: readonly WorkedCase[] = [
  {
    ruleId: 'compost-organic',
    words: 'carbon to nitrogen of 40:1, or 40.1 (7 CFR 205.203(c)(2))',
    about: 'P-1',
    write: (side) => pile(ordinary(), { carbonToNitrogen: side === 'within' ? 40 : 40.1 }),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'what the mix was',
      write: () => pile(ordinary(), { carbonToNitrogen: null }),
      verdict: 'unknown',
    },
    unsure: 'a ratio is compared; days are counted by the days of their readings',
    chosenAt: '03-01 08:00',
    stricter: { parameters: { mostCarbonToNitrogen: 35 }, verdict: 'broken' },
  },
  {
    ruleId: 'compost-produce',
    words: '131 °F on the second of three days, or a tenth less (21 CFR 112.54(b))',
    about: 'P-1',
    write: (side) => pile(ordinary(), { third: side === 'within' ? 131 : 130.9 }),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'how hot it was on the second day',
      write: () => pile(ordinary(), { third: null }),
      verdict: 'unknown',
    },
    unsure: 'degrees are compared; days are counted by the days of their readings',
    chosenAt: '03-01 08:00',
    stricter: { parameters: { leastF: 135 }, verdict: 'broken' },
  },
  {
    ruleId: 'treatment-status',
    words: 'molasses with compost of plants, or with compost of manure (21 CFR 112.51)',
    about: 'T-14',
    kind: 'batch',
    write: (side) => bought(side === 'within' ? 'no' : 'yes'),
    verdicts: { within: 'met', past: 'caution' },
    unknown: { words: 'whether the compost has manure in it', write: () => bought('unknown'), verdict: 'unknown' },
    unsure: 'what went in is asked, whenever it did',
    chosenAt: '06-02 06:00',
  },
  {
    ruleId: 'additive-tested',
    words: '126 E. coli in 100 mL in the second of two tests, or 127 (NOSB recommendation, second-hand)',
    about: 'T-14',
    write: (side) => tested({ value: side === 'within' ? 126 : 127 }),
    verdicts: { within: 'met', past: 'broken' },
    unknown: {
      words: 'below 200 does not tell whether it is 126 or less',
      write: () => tested({ value: 200, qualifier: '<' }),
      verdict: 'unknown',
    },
    unsure: 'counts are compared; the last two tests are those, by their days',
    chosenAt: '06-02 06:00',
    stricter: { parameters: { coliPer100mL: 100 }, verdict: 'broken' },
  },
  {
    ruleId: 'contact-allowed',
    words: 'untreated tea onto lettuce before there are leaves to eat, or on them (21 CFR 112.56(a))',
    about: 'A-1',
    write: (side) => sprayed(side === 'within' ? 'absent' : 'present'),
    verdicts: { within: 'met', past: 'broken' },
    unknown: { words: 'whether there were leaves', write: () => sprayed(), verdict: 'unknown' },
    unsure: 'what stood there is asked of whoever sprayed, not of the clock',
    chosenAt: '06-03 07:00',
  },
];
