import { describe, expect, it } from '@jest/globals';
import { gal, id, instant, lb, mgPerL, ordinary } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

/* What an outcome tells besides its verdict: the words that say what happened, and the figures that were compared. */

describe('a prohibited substance on the ground', () => {
  it.each([
    ['drift', 'Herbicide drifted onto North 4'],
    ['applied', 'Herbicide was applied to North 4'],
  ] as const)('how it came there is said: %s', (how, words) => {
    const season = ordinary();
    season.add('field.exposed', '05-01 08:00', { fieldId: id('North 4'), substance: 'herbicide', how });
    const { message } = outcomeOf(season.season(), 'notify-certifier', 'North 4', { now: instant('05-03 08:00') });
    expect(message).toContain(words);
  });
});

describe('an approved input', () => {
  const used = (restriction?: string) => {
    const season = ordinary().material('kelp', { kind: 'extract' }).lot('K-1', 'kelp');
    season.approved('kelp', '2026-01-01', undefined, restriction === undefined ? {} : { restriction });
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'K-1');
    return outcomeOf(season.season(), 'input-approved', 'K-1');
  };
  it('comes with its restriction, where the approval has one', () => {
    expect(used('soil only')).toMatchObject({ outcome: 'met' });
    expect(used('soil only').message).toContain('It carries a restriction: soil only.');
    expect(used().message).not.toContain('restriction');
  });
});

describe('the address of who applied it', () => {
  const asked = (operationAddress: boolean, own?: string) => {
    const season = ordinary(operationAddress ? { address: '12 Quillfen Lane' } : {});
    season.add('person.registered', '04-01 08:00', {
      personId: id('Ines'),
      personal: { name: 'Ines Harrow', ...(own === undefined ? {} : { address: own }) },
    });
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1');
    season.batch('T-14').applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
      targets: [{ fieldId: id('North 4'), area: { value: 1, unit: '[acr_us]' } }],
    });
    return outcomeOf(season.season(), 'record-complete', 'A-1').message;
  };
  it('is the person’s own or the operation’s; without either it is missing', () => {
    expect(asked(false)).toContain('the address of who applied it');
    expect(asked(true)).not.toContain('the address of who applied it');
    expect(asked(false, '3 Mill Road')).not.toContain('the address of who applied it');
  });
});

describe('a pile’s carbon to nitrogen', () => {
  const figures = (carbonToNitrogen?: number) => {
    const season = ordinary().material('straw', { kind: 'other' }).lot('S-1', 'straw', lb(900));
    season.material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure', lb(1000));
    season.material('own compost', { animalOrigin: 'yes' });
    season.add('pile.started', '02-01 08:00', {
      ...{ pileId: id('P-1'), code: 'P-1', method: 'windrow', inputs: [{ lotId: id('Man-1'), quantity: lb(500) }] },
      ...(carbonToNitrogen === undefined ? {} : { carbonToNitrogen }),
    });
    season.add('pile.finished', '04-01 08:00', {
      ...{ pileId: id('P-1'), lotId: id('Y-1'), code: 'Y-1', materialId: id('own compost'), quantity: lb(400) },
    });
    return outcomeOf(season.season(), 'compost-organic', 'P-1').figures;
  };
  it('is among the figures where it was written down, against the most that is allowed', () => {
    expect(figures(31)).toContainEqual({ name: 'carbonToNitrogen', value: 31, unit: '1', limit: 40 });
    expect(figures().map(({ name }) => name)).not.toContain('carbonToNitrogen');
  });
});

describe('a sample of tea with additives that a laboratory has', () => {
  const asked = (coli: boolean, now: string) => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').fed('06-02 06:00', 'C-1').fed('06-02 06:05', 'M-1');
    const sampled = { batchId: id('T-14'), sampleId: id('S-1') };
    season.add('batch.sampled', '06-02 12:00', { ...sampled, takenFrom: 'tank' });
    if (coli) {
      const results = [{ analyte: 'E. coli', value: { value: 0, unit: '{CFU}/(100.mL)' } }];
      season.add('batch.analysed', '06-04 12:00', { ...sampled, laboratory: 'county laboratory', results });
    }
    return outcomeOf(season.season(), 'additive-tested', 'T-14', { now: instant(now) });
  };
  it('is waited for while its result may still come; a result that came is no longer waited for', () => {
    expect(asked(false, '06-05 12:00')).toMatchObject({ outcome: 'due' });
    // Only one of the two that are asked for: it came, and cannot tell.
    expect(asked(true, '06-05 12:00').outcome).not.toBe('due');
  });
});

describe('free chlorine that was read', () => {
  it('is said with its figure and its time', () => {
    const season = ordinary().source('Town', { kind: 'municipal', disinfectant: 'chlorine' });
    season
      .batch('T-14')
      .filled('06-02 05:00', gal(200), 'Town')
      .airOn('06-02 05:01')
      .chlorine('06-02 05:30', { free: mgPerL(0.4) })
      .fed('06-02 06:00', 'C-1');
    const { message, figures } = outcomeOf(season.season(), 'chlorine-dissipated', 'T-14');
    expect(message).toContain('Free chlorine was still 0.4 mg/L at 05:30');
    expect(figures).toContainEqual(expect.objectContaining({ name: 'freeChlorineMgPerL', value: 0.4 }));
  });
});

describe('a harvest before it is known what the tea was', () => {
  const message = (ediblePart: 'root' | 'tree' | null) => {
    const season = ordinary().material('guano', { animalOrigin: 'unknown' }).lot('G-1', 'guano');
    if (ediblePart !== null) season.planting('crop', 'North 4', { ediblePart });
    season
      .batch('T-14', '04-30 04:00')
      .filled('04-30 05:00')
      .fed('04-30 06:00', 'G-1')
      .applied('A-1', '05-01 12:00', '05-01 12:00', 'North 4', gal(100));
    season.harvest('H-1', 'North 4', '06-01 09:00', ediblePart === null ? {} : { plantingId: id('crop') });
    return outcomeOf(season.season(), 'harvest-interval', 'H-1').message;
  };
  it('says how many days may have to go by: one figure for a crop that is known, two for one that is not', () => {
    expect(message('root')).toContain('Whether 120 days have to go by is open');
    expect(message('tree')).toContain('Whether 90 days have to go by is open');
    expect(message(null)).toContain('Whether 90 or 120 days have to go by is open');
  });
});

describe('a tank that was never filled', () => {
  it('is not asked whether it was clean before', () => {
    const season = ordinary();
    season.batch('T-14');
    expect(outcomeOf(season.season(), 'vessel-clean', 'T-14')).toMatchObject({ outcome: 'notApplicable' });
  });
});
