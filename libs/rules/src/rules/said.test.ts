import { describe, expect, it } from '@jest/globals';
import { gal, id, instant, lb, mgPerL, ordinary } from '../testing/season.ts';
import { evaluate } from '../engine/evaluate.ts';
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

describe('living tea that is to be used up', () => {
  // Fed at 06:00 on 2 June with molasses: advised 36 h, limit 48 h, to the minute.
  const at = (now: string, off = false) => {
    const season = ordinary();
    const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'M-1');
    if (off) batch.airOff('06-03 06:00');
    return evaluate(season.season(), instant(now)).find(
      ({ ruleId, about }) => ruleId === 'brew-maximum' && about.kind === 'batch',
    );
  };
  it('is due up to the last minute of the limit, and past it a caution', () => {
    expect(at('06-03 18:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-03 18:00') });
    expect(at('06-03 18:01')).toMatchObject({ outcome: 'due', dueAt: instant('06-04 06:00') });
    expect(at('06-04 06:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-04 06:00') });
    expect(at('06-04 06:01')).toMatchObject({ outcome: 'caution' });
  });
  it('is no longer asked once the air is off: the hold time is', () => {
    expect(at('06-03 07:00', true)).toBeUndefined();
  });
});

describe('the next look at the oxygen', () => {
  it('is due up to the limit, to the minute', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').oxygen('06-02 08:00', 7);
    const at = (now: string) => outcomeOf(season.season(), 'oxygen-checked', 'T-14', { now: instant(now) });
    expect(at('06-02 20:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-02 20:00') });
    expect(at('06-03 00:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-03 00:00') });
    expect(at('06-03 00:01').outcome).not.toBe('due');
  });
});

describe('chloramine that was neutralized before any food', () => {
  it('is judged by the reading after the neutralizer, not by one before it', () => {
    const read = (when: string) => {
      const season = ordinary().source('Town', { kind: 'municipal', disinfectant: 'chloramine' });
      season.material('vitamin C', { kind: 'neutralizer' }).lot('V-1', 'vitamin C');
      season
        .batch('T-14')
        .filled('06-02 05:00', gal(200), 'Town')
        .neutralized('06-02 06:00', 'V-1')
        .chlorine(when, { total: mgPerL(0.05) });
      return outcomeOf(season.season(), 'chloramine-handled', 'T-14', { now: instant('06-02 09:00') });
    };
    expect(read('06-02 07:00')).toMatchObject({ outcome: 'met' });
    expect(read('06-02 05:30').outcome).not.toBe('met');
  });
});

describe('a meter found off', () => {
  const where = (batches: number) => {
    const season = ordinary();
    for (let n = 1; n <= batches; n += 1) {
      const day = `06-${String(n).padStart(2, '0')}`;
      season
        .batch(`T-${n}`, `${day} 04:00`)
        .filled(`${day} 05:00`)
        .fed(`${day} 06:00`, 'C-1')
        .oxygen(`${day} 08:00`, 7, { instrumentId: id('DO-1') });
    }
    season.add('instrument.checked', '06-20 08:00', {
      ...{ instrumentId: id('DO-1'), standard: 'water-saturated air', reading: mgPerL(7), expected: mgPerL(9) },
    });
    return outcomeOf(season.season(), 'instrument-drift', 'DO-1').message;
  };
  it('names five batches of doubted readings, and says where there are more', () => {
    expect(where(5)).toContain('T-5');
    expect(where(5)).not.toContain(' …)');
    expect(where(6)).toContain('T-5');
    expect(where(6)).not.toContain('T-6');
    expect(where(6)).toContain(' …)');
  });
});

describe('a field that was never harvested', () => {
  it('is not asked for its outline', () => {
    expect(outcomeOf(ordinary().season(), 'field-located', 'North 4')).toMatchObject({ outcome: 'notApplicable' });
  });
});

describe('a recipe of a material that nobody described', () => {
  it('is named as an ingredient', () => {
    const season = ordinary();
    season.add('recipe.published', '01-05 09:00', {
      ...{ recipeId: id('R'), edition: 1, code: 'R', kind: 'aeratedTea', basisVolume: gal(250) },
      ingredients: [{ materialId: id('nobody knows'), amount: lb(5) }],
    });
    season
      .batch('T-14', '06-02 04:00', { recipeId: id('R') })
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1');
    const { figures } = outcomeOf(season.season(), 'recipe-followed', 'T-14');
    expect(figures.map(({ name }) => name)).toEqual(['ingredient']);
  });
});

describe('a tank whose working volume is written in what nobody weighed', () => {
  it('leaves open whether it was filled too full', () => {
    const season = ordinary().vessel('Barrel', {
      workingVolume: { value: 40, unit: '{measure}', measureId: id('unweighed') },
    });
    season.batch('T-14', '06-02 04:00', { vesselId: id('Barrel') }).filled('06-02 05:00', gal(50));
    const outcome = outcomeOf(season.season(), 'fill-level', 'T-14');
    expect(outcome.outcome).toBe('unknown');
    expect(outcome.message).toContain('Barrel');
  });
});

describe('total chlorine that was read between two pads of a strip', () => {
  const figure = (total: ReturnType<typeof mgPerL>) => {
    const season = ordinary().source('Town', { kind: 'municipal', disinfectant: 'chloramine' });
    season.batch('T-14').filled('06-02 05:00', gal(200), 'Town').chlorine('06-02 07:00', { total });
    return outcomeOf(season.season(), 'chloramine-handled', 'T-14').figures.find(
      ({ name }) => name === 'totalChlorineMgPerL',
    );
  };
  it('is a range among the figures; an exact reading, and one that only says "more than", is none', () => {
    expect(figure(mgPerL(0, { qualifier: 'between', high: 0.5 }))).toMatchObject({ range: [0, 0.5] });
    expect(figure(mgPerL(0.3))).not.toHaveProperty('range');
    expect(figure(mgPerL(0.3, { qualifier: '>' }))).not.toHaveProperty('range');
  });
});

describe('stock at the start', () => {
  const timely = (openingStock: boolean) => {
    const season = ordinary();
    season.add(
      'lot.received',
      '03-01 08:00',
      {
        ...{ lotId: id('X-1'), code: 'X-1', materialId: id('compost'), supplierLot: '1', quantity: lb(10) },
        ...(openingStock ? { openingStock: true } : {}),
      },
      { enteredAt: '03-09 08:00' },
    );
    return evaluate(season.season(), instant('04-01 08:00')).find(
      ({ ruleId, about }) => ruleId === 'record-timely' && about.id === id('X-1'),
    )?.outcome;
  };
  it('is not late, whenever it is written down; a delivery is', () => {
    expect(timely(false)).toBe('broken');
    expect(timely(true)).not.toBe('broken');
  });
});

describe('ground on which nothing stands, treated with manure tea', () => {
  it('asks for the longer time, as nobody knows yet what will be harvested', () => {
    const season = ordinary().material('manure', { kind: 'other', animalOrigin: 'yes' }).lot('Man-1', 'manure');
    season
      .batch('T-14', '04-30 04:00')
      .filled('04-30 05:00')
      .fed('04-30 06:00', 'Man-1')
      .applied('A-1', '05-01 12:00', '05-01 12:00', 'North 4', gal(100));
    const { message } = outcomeOf(season.season(), 'harvest-interval', 'A-1', { now: instant('05-02 12:00') });
    // 1 May + 120 days = 29 August.
    expect(message).toContain('29 August 2026');
  });
});
