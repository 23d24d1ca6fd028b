import type { Quantity } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { evaluate, judgeBatch, judgeThing } from '../engine/evaluate.ts';
import { deadlinesOf } from '../next-due.ts';
import { acres, fahrenheit, gal, id, instant, lb, mgPerL, ordinary, SeasonBuilder } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

describe('instrument-calibrated', () => {
  const readOn = (
    kind: string,
    checkedOn: string | null,
    when: string,
    more: { validFor?: { value: number; unit: string } } = {},
  ) => {
    const season = ordinary().instrument('P-1', { kind, ...more });
    if (checkedOn !== null) {
      season.add('instrument.calibrated', `${checkedOn} 08:00`, { instrumentId: id('P-1'), standard: 'air' });
    }
    season
      .batch('T-14')
      .filled('06-01 05:00')
      .airOn('06-01 05:00')
      .fed('06-01 06:00', 'C-1')
      .oxygen(when, 7, { instrumentId: id('P-1') });
    return outcomeOf(season.season(), 'instrument-calibrated', 'P-1');
  };
  it.each<[string, string | null, string, string, string]>([
    ['opticalProbe', '05-03', '06-02 12:00', 'met', '30 days'],
    ['opticalProbe', '05-02', '06-02 12:00', 'broken', '31 days'],
    ['dropKit', '05-03', '06-02 12:00', 'met', '30 days'],
    ['membraneProbe', '06-02', '06-02 23:59', 'met', 'the same day'],
    ['membraneProbe', '06-01', '06-02 00:01', 'broken', 'the day before'],
    ['membraneProbe', '06-02', '06-02 08:00', 'met', 'in the minute of the reading'],
    ['membraneProbe', '06-02', '06-02 07:59', 'broken', 'after the reading'],
    ['opticalProbe', null, '06-02 12:00', 'broken', 'never'],
    ['thermometer', null, '06-02 12:00', 'notApplicable', 'no period is set'],
  ])('a %s calibrated on %s and read at %s: %s, %s', (kind, checked, when, verdict) => {
    expect(readOn(kind, checked, when).outcome).toBe(verdict);
  });
  it('the words say how long a calibration counts: a membrane on the day, an optical probe for 30 days', () => {
    expect(readOn('membraneProbe', null, '06-02 12:00').message).toContain('calibrated or checked on the day');
    expect(readOn('opticalProbe', null, '06-02 12:00').message).toContain('counts for 30 days');
  });
  it('a period without end, as large as a record can hold, is judged by, and ends in thousands of years', () => {
    const validFor = { value: 999_999_999_999, unit: 'a' };
    expect(readOn('scale', '05-23', '06-02 12:00', { validFor }).outcome).toBe('met');
    const season = ordinary().instrument('P-1', { kind: 'scale', validFor });
    season.add('instrument.calibrated', '05-23 08:00', { instrumentId: id('P-1'), standard: 'weight' });
    season
      .batch('T-14')
      .filled('06-01 05:00')
      .oxygen('06-02 12:00', 7, { instrumentId: id('P-1') });
    const [due] = deadlinesOf(season.season(), instant('06-03 12:00')).filter(({ about }) => about.id === id('P-1'));
    expect(new Date(due?.at ?? NaN).getUTCFullYear()).toBeGreaterThan(4000);
  });
  it('a period given with another kind of instrument counts', () => {
    const validFor = { value: 10, unit: 'd' };
    expect(readOn('scale', '05-23', '06-02 12:00', { validFor }).outcome).toBe('met');
    expect(readOn('scale', '05-22', '06-02 12:00', { validFor }).outcome).toBe('broken');
  });
});

describe('instrument-drift', () => {
  /** With one reading of T-14, at noon on 2 June. */
  const readBy = (instrument: string, season = ordinary()) => {
    season
      .batch('T-14')
      .filled('06-01 05:00')
      .airOn('06-01 05:00')
      .fed('06-01 06:00', 'C-1')
      .oxygen('06-02 12:00', 7, { instrumentId: id(instrument) });
    return season;
  };
  const found = (reading: number, expected = 10) => {
    const season = readBy('DO-1');
    season.add('instrument.checked', '06-10 08:00', {
      instrumentId: id('DO-1'),
      standard: 'air',
      reading: mgPerL(reading),
      expected: mgPerL(expected),
    });
    return outcomeOf(season.season(), 'instrument-drift', 'DO-1');
  };
  it.each([
    [9, 10, 'met', 'exactly 10 % off'],
    [8.9, 10, 'caution', '11 % off'],
    // In binary fractions 9 − 8.1 is a little more than 0.9.
    [8.1, 9, 'met', 'exactly 10 % off as well'],
    [8.09, 9, 'caution', '10.1 % off'],
  ])('a check that reads %s for %s: %s, %s', (reading, expected, verdict) => {
    expect(found(reading, expected).outcome).toBe(verdict);
  });
  it('as a share of what was expected, exactly: 8.1 for 9 is 10 %, 7.7 for 7 after a calibration too', () => {
    expect(found(8.1, 9).figures.map(({ value }) => value)).toContain(10);
    const season = readBy('P-1', ordinary().instrument('P-1', { kind: 'opticalProbe' }));
    season.add('instrument.calibrated', '06-10 08:00', {
      ...{ instrumentId: id('P-1'), standard: 'air', readingBefore: mgPerL(7.7), readingAfter: mgPerL(7) },
    });
    expect(outcomeOf(season.season(), 'instrument-drift', 'P-1')).toMatchObject({
      ...{ outcome: 'met', figures: [{ value: 10 }] },
    });
  });
  it('a check that is off by just as much as allowed is a good one: what was read before it is out of doubt', () => {
    const season = readBy('P-1', ordinary().instrument('P-1', { kind: 'opticalProbe' }));
    const check = (when: string, mg: number) =>
      season.add('instrument.checked', when, {
        ...{ instrumentId: id('P-1'), standard: 'air', reading: mgPerL(mg), expected: mgPerL(10) },
      });
    // Read at noon on 2 June.
    check('06-05 08:00', 9);
    check('06-10 08:00', 8);
    expect(outcomeOf(season.season(), 'instrument-drift', 'P-1').outcome).toBe('met');
    check('06-02 13:00', 8.9);
    expect(outcomeOf(season.season(), 'instrument-drift', 'P-1').outcome).toBe('caution');
  });
  /** The check of 10 June at 08:00 found it 20 % off; the one of 5 June at 08:00 had found it true. */
  const foundOff = (when: string) => {
    const season = ordinary().instrument('P-1', { kind: 'opticalProbe' });
    const batch = season.batch('T-14').filled('06-01 05:00').airOn('06-01 05:00').fed('06-01 06:00', 'C-1');
    batch.oxygen(when, 7, { instrumentId: id('P-1') });
    for (const [day, mg] of [
      ['06-05', 10],
      ['06-10', 8],
    ] as const)
      season.add('instrument.checked', `${day} 08:00`, {
        ...{ instrumentId: id('P-1'), standard: 'air', reading: mgPerL(mg), expected: mgPerL(10) },
      });
    return season.season();
  };
  it.each([
    ['06-05 08:00', false, 'in the minute of the good check'],
    ['06-05 08:01', true, 'after it'],
    ['06-10 08:00', true, 'in the minute of the check that found it off'],
    ['06-10 08:01', false, 'after that'],
  ])('a reading of %s is in doubt: %s, %s', (when, doubted) => {
    const { outcome, message } = outcomeOf(foundOff(when), 'instrument-drift', 'P-1');
    expect([outcome, message.includes('T-14')]).toEqual([doubted ? 'caution' : 'met', doubted]);
  });
  it('off, with nothing read since: beside a batch the words speak of its readings, elsewhere of all', () => {
    const season = readBy('P-1', ordinary().instrument('P-1', { kind: 'opticalProbe' }));
    season.add('instrument.checked', '06-02 11:00', {
      ...{ instrumentId: id('P-1'), standard: 'air', reading: mgPerL(8), expected: mgPerL(10) },
    });
    const open = season.season();
    const now = instant('2026-12-31 00:00');
    const beside = judgeBatch(open, id('T-14'), now).find(({ ruleId }) => ruleId === 'instrument-drift');
    expect(beside?.said.key).toBe('instrument-drift.noneOfBatch');
    const alone = outcomeOf(open, 'instrument-drift', 'P-1');
    expect([alone.outcome, beside?.outcome]).toEqual(['met', 'met']);
    expect(alone.said.key).toBe('instrument-drift.nothingRead');
  });
  it('names the batches whose readings since the last good check are in doubt', () => {
    expect(found(8).message).toContain('T-14');
  });
  it.each<[string, number | undefined, Quantity | undefined, string]>([
    ['exactly 10 % off', 9, mgPerL(10), 'met'],
    ['11 % off', 8.9, mgPerL(10), 'caution'],
    ['11 % off the other way', 11.1, mgPerL(10), 'caution'],
    ['what it read before was not written down', undefined, mgPerL(10), 'notApplicable'],
    ['what it read after was not written down', 5, undefined, 'notApplicable'],
    ['read in percent afterwards', 5, { value: 100, unit: '%' }, 'notApplicable'],
    ['set to nothing at all: no share of it can be told', 5, mgPerL(0), 'notApplicable'],
  ])('a calibration, %s (read %s, then %j): %s', (_, before, after, verdict) => {
    const season = readBy('P-1', ordinary().instrument('P-1', { kind: 'opticalProbe' }));
    season.add('instrument.calibrated', '06-10 08:00', {
      instrumentId: id('P-1'),
      standard: 'air',
      ...(before === undefined ? {} : { readingBefore: mgPerL(before) }),
      ...(after === undefined ? {} : { readingAfter: after }),
    });
    expect(outcomeOf(season.season(), 'instrument-drift', 'P-1').outcome).toBe(verdict);
  });
});

describe('equipment-calibrated', () => {
  const usedOn = (calibrated: string | null, changed?: string) => {
    const season = ordinary();
    season.add('equipment.registered', '2024-01-01 08:00', {
      equipmentId: id('Sprayer A'),
      code: 'Sprayer A',
      kind: 'sprayer',
    });
    if (calibrated !== null)
      season.add('equipment.calibrated', `${calibrated} 08:00`, { equipmentId: id('Sprayer A'), nozzles: 18 });
    if (changed !== undefined)
      season.add('equipment.revised', `${changed} 09:00`, {
        equipmentId: id('Sprayer A'),
        code: 'Sprayer A, new nozzles',
      });
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId: id('Sprayer A') });
    return outcomeOf(season.season(), 'equipment-calibrated', 'Sprayer A').outcome;
  };
  it.each<[string | null, string | undefined, string, string]>([
    ['2025-06-03', undefined, 'met', '365 days before'],
    ['2025-06-02', undefined, 'broken', '366 days before'],
    [null, undefined, 'broken', 'never'],
    ['2026-04-01', '2026-05-01', 'broken', 'before the nozzles were changed'],
    ['2026-05-02', '2026-05-01', 'met', 'after they were changed'],
  ])('used on 3 June, measured on %s, changed on %s: %s, %s', (calibrated, changed, verdict) => {
    expect(usedOn(calibrated, changed)).toBe(verdict);
  });
});

describe('equipment-calibrated, to the minute: spraying began at 07:00', () => {
  const used = (calibrated: string, changed?: string) => {
    const season = ordinary();
    const equipmentId = id('Sprayer A');
    season.add('equipment.registered', '2024-01-01 08:00', { equipmentId, code: 'Sprayer A', kind: 'sprayer' });
    season.add('equipment.calibrated', `06-03 ${calibrated}`, { equipmentId, nozzles: 18 });
    if (changed !== undefined)
      season.add('equipment.revised', `06-03 ${changed}`, { equipmentId, code: 'Sprayer A, new nozzles' });
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId });
    return outcomeOf(season.season(), 'equipment-calibrated', 'Sprayer A').outcome;
  };
  it.each<[string, string | undefined, string, string]>([
    ['06:59', undefined, 'met', 'measured before'],
    ['07:00', undefined, 'met', 'measured in that minute'],
    ['07:01', undefined, 'broken', 'measured too late'],
    ['06:30', '06:30', 'met', 'changed and measured in one minute'],
    ['06:30', '06:31', 'broken', 'changed after it was measured'],
    ['06:30', '07:00', 'broken', 'changed in the minute in which spraying began'],
    ['06:30', '07:01', 'met', 'changed while it was spraying'],
  ])('measured at %s, changed at %s: %s, %s', (calibrated, changed, verdict) => {
    expect(used(calibrated, changed)).toBe(verdict);
  });
});

describe('every rule on one piece of equipment', () => {
  it.each([
    ['sprayer', ['equipment-calibrated']],
    // A blower applies nothing: its output is not asked about.
    ['blower', []],
  ] as const)('a %s never measured: %j, as where everything is judged', (kind, rules) => {
    const season = ordinary();
    const equipmentId = id('E-1');
    season.add('equipment.registered', '04-01 08:00', { equipmentId, code: 'E-1', kind });
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId });
    const now = instant('2026-12-31 00:00');
    const judged = judgeThing(season.season(), { kind: 'equipment', id: equipmentId }, now);
    expect(judged.map(({ ruleId }) => ruleId)).toEqual(rules);
    expect(judged).toEqual(
      evaluate(season.season(), now).filter(
        ({ about: { kind: of, id: which } }) => of === 'equipment' && which === equipmentId,
      ),
    );
  });
});

describe('equipment-clean', () => {
  const usedFor = (cleaned?: string, rinsed = true) => {
    const season = ordinary();
    season.add('equipment.registered', '2024-01-01 08:00', {
      equipmentId: id('Sprayer A'),
      code: 'Sprayer A',
      kind: 'sprayer',
    });
    season.add('equipment.used', '06-01 08:00', {
      equipmentId: id('Sprayer A'),
      what: 'kaolin clay',
      prohibited: 'no',
    });
    if (cleaned !== undefined)
      season.add('equipment.cleaned', cleaned, { equipmentId: id('Sprayer A'), method: 'triple rinse', rinsed });
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId: id('Sprayer A') });
    return outcomeOf(season.season(), 'equipment-clean', 'A-1').outcome;
  };
  it.each<[string | undefined, boolean, string, string]>([
    [undefined, true, 'broken', 'not cleaned'],
    ['06-01 10:00', true, 'met', 'cleaned after it'],
    ['06-01 10:00', false, 'caution', 'cleaned, not rinsed'],
    ['05-31 10:00', true, 'broken', 'cleaned before it'],
    ['06-03 09:00', true, 'broken', 'cleaned after the tea'],
  ])('a sprayer used for clay and cleaned at %s: %s, %s', (cleaned, rinsed, verdict) => {
    expect(usedFor(cleaned, rinsed)).toBe(verdict);
  });
  it.each([
    ['yes', true, 'broken'],
    ['no', false, undefined],
    ['unknown', false, undefined],
  ] as const)(
    'prohibited: %s: the words say so (%s), and the certifier is to be told at once (7 CFR 205.400(f)): %s',
    (prohibited, inWords, told) => {
      const season = ordinary();
      const equipmentId = id('Sprayer A');
      season.add('equipment.registered', '2024-01-01 08:00', { equipmentId, code: 'Sprayer A', kind: 'sprayer' });
      season.add('equipment.used', '06-01 08:00', { equipmentId, what: 'lawn feed', prohibited });
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId });
      const { message } = outcomeOf(season.season(), 'equipment-clean', 'A-1');
      expect(message.includes('a prohibited substance')).toBe(inWords);
      const notice = evaluate(season.season(), instant('2026-12-31 00:00')).find(
        ({ ruleId, about }) => ruleId === 'notify-certifier' && about.id === equipmentId,
      );
      expect(notice?.outcome).toBe(told);
    },
  );
  it.each([
    ['06-03 06:59', 'broken', 'before the tea'],
    ['06-03 07:00', 'broken', 'in the minute in which the tea began: what came first cannot be seen, it is asked for'],
    ['06-03 07:01', 'met', 'after the tea had begun'],
  ])('a sprayer used for clay at %s and not cleaned, tea through it from 07:00: %s, %s', (when, verdict) => {
    const season = ordinary();
    const equipmentId = id('Sprayer A');
    season.add('equipment.registered', '2024-01-01 08:00', { equipmentId, code: 'Sprayer A', kind: 'sprayer' });
    season.add('equipment.used', when, { equipmentId, what: 'kaolin clay', prohibited: 'no' });
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId });
    expect(outcomeOf(season.season(), 'equipment-clean', 'A-1').outcome).toBe(verdict);
  });
  it('of two cleanings after the clay, the one that was surely before the tea counts', () => {
    const season = ordinary();
    const equipmentId = id('Sprayer A');
    season.add('equipment.registered', '2024-01-01 08:00', { equipmentId, code: 'Sprayer A', kind: 'sprayer' });
    season.add('equipment.used', '06-01 08:00', { equipmentId, what: 'kaolin clay', prohibited: 'no' });
    const clean = (when: string, plusMinusMinutes: number) =>
      season.add(
        'equipment.cleaned',
        when,
        { equipmentId, method: 'triple rinse', rinsed: true },
        { plusMinusMinutes },
      );
    const sure = clean('06-02 10:00', 0);
    clean('06-03 06:45', 30);
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId });
    const { outcome, recordIds } = outcomeOf(season.season(), 'equipment-clean', 'A-1');
    expect([outcome, recordIds.includes(sure)]).toEqual(['met', true]);
  });
  it('of a sprayer that nobody registered nothing is said', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId: id('Sprayer X') });
    expect(outcomeOf(season.season(), 'equipment-clean', 'A-1').outcome).toBe('notApplicable');
  });
});

describe('temperature-range', () => {
  it.each([
    [55, 'met'],
    [54.9, 'broken'],
    [80, 'met'],
    [80.1, 'broken'],
  ])('a brew at %s °F: %s', (f, verdict) => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .checked('06-02 12:00', { temperature: { value: f, unit: '[degF]' } });
    expect(outcomeOf(season.season(), 'temperature-range', 'T-14').outcome).toBe(verdict);
  });
  it.each([
    [54.9, 55],
    [55, 80],
    [70, 80],
    [80, 80],
    [80.1, 80],
  ])('a brew at %s °F is held against %s °F: the lower end where it is too cold, else the upper', (f, limit) => {
    const season = ordinary();
    const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
    batch.checked('06-02 12:00', { temperature: fahrenheit(f) });
    expect(outcomeOf(season.season(), 'temperature-range', 'T-14').figures[0]).toEqual({
      ...{ name: 'temperatureF', value: f, unit: '[degF]', limit },
    });
  });
  it('tells the room for oxygen: at 20 °C water holds 9.09 mg/L (EN 25814, as printed in a meter manual)', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .checked('06-02 12:00', { temperature: { value: 20, unit: 'Cel' } });
    const headroom = outcomeOf(season.season(), 'temperature-range', 'T-14').figures.find(
      (f) => f.name === 'oxygenHeadroomMgPerL',
    );
    expect(headroom?.value).toBeCloseTo(9.09 - 6, 1);
  });
  it('where nobody described the operation yet, the room is told as at the sea', () => {
    const warmth = (season: SeasonBuilder) => {
      const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
      batch.checked('06-02 12:00', { temperature: { value: 20, unit: 'Cel' } });
      return outcomeOf(season.season(), 'temperature-range', 'T-14');
    };
    const undescribed = new SeasonBuilder().source('W1').vessel('Tote 2').material('compost').lot('C-1', 'compost');
    expect(warmth(undescribed).figures).toEqual(warmth(ordinary()).figures);
  });
  it('at 5,000 ft water holds less', () => {
    const season = ordinary({ elevation: { value: 5000, unit: '[ft_i]' } });
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .checked('06-02 12:00', { temperature: { value: 20, unit: 'Cel' } });
    const { figures } = outcomeOf(season.season(), 'temperature-range', 'T-14');
    // 84.3 kPa of air at 5,000 ft (standard atmosphere, from memory) against 101.325 at the sea, less 2.34 of vapour at
    // 20 °C: 9.09 × (84.3 − 2.34) / (101.325 − 2.34) = 7.53 mg/L.
    expect(figures[1]?.name).toBe('oxygenHeadroomMgPerL');
    expect(figures[1]?.value).toBeCloseTo(7.53 - 6, 1);
  });
});

describe('area-possible: North 4 has 6 acres', () => {
  const treated = (area: { value: number; unit: string } | undefined, field = 'North 4') => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
        targets: [{ fieldId: id(field), ...(area === undefined ? {} : { area }) }],
      });
    return outcomeOf(season.season(), 'area-possible', 'A-1').outcome;
  };
  it.each<[Quantity | undefined, string, string]>([
    [acres(6), 'met', 'exactly the field'],
    [acres(6.1), 'broken', 'more than the field'],
    [{ value: 2.42, unit: 'har' }, 'met', '2.42 ha are 5.98 acres'],
    [{ value: 2.5, unit: 'har' }, 'broken', '2.5 ha are 6.18 acres'],
    [undefined, 'notApplicable', 'no area written down'],
  ])('%j treated: %s, %s', (area, verdict) => {
    expect(treated(area)).toBe(verdict);
  });
  it('a lot is no area; one that nobody recorded cannot be told', () => {
    const wetted = (lot: string) => {
      const season = ordinary();
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { targets: [{ lotId: id(lot) }] });
      return outcomeOf(season.season(), 'area-possible', 'A-1').outcome;
    };
    expect([wetted('C-1'), wetted('C-9')]).toEqual(['notApplicable', 'unknown']);
  });
  it('a field that nobody registered', () => {
    expect(treated(acres(1), 'South 9')).toBe('unknown');
  });
});

describe('tank-mix', () => {
  it.each([
    ['yes', 'broken'],
    ['no', 'met'],
    [undefined, 'notApplicable'],
  ] as const)('a material registered as harming tea "%s": %s', (harmsTea, verdict) => {
    const season = ordinary()
      .material('copper', { kind: 'mineral', ...(harmsTea === undefined ? {} : { harmsTea }) })
      .lot('Cu-1', 'copper');
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
        tankMix: [{ lotId: id('Cu-1'), quantity: lb(1) }],
      });
    expect(outcomeOf(season.season(), 'tank-mix', 'A-1').outcome).toBe(verdict);
  });
  it('a lot that nobody recorded cannot be told, and a sanitizer harms tea although its registration does not say so', () => {
    const mixed = (lotId: string) => {
      const season = ordinary().material('bleach', { kind: 'sanitizer' }).lot('B-1', 'bleach');
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
          tankMix: [{ lotId: id(lotId), quantity: lb(1) }],
        });
      return outcomeOf(season.season(), 'tank-mix', 'A-1').outcome;
    };
    expect(mixed('nobody knows')).toBe('unknown');
    expect(mixed('B-1')).toBe('broken');
  });
});

describe('dilution-water', () => {
  type Water = NonNullable<Parameters<ReturnType<typeof ordinary>['source']>[1]>;
  const thinned = (source: Water | null) => {
    const season = ordinary();
    if (source !== null) season.source('D1', source);
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
        dilutionVolume: gal(50),
        ...(source === null ? {} : { dilutionSourceId: id('D1') }),
      });
    return outcomeOf(season.season(), 'dilution-water', 'A-1');
  };
  it.each<[Water | null, string]>([
    [{ disinfectant: 'none' }, 'met'],
    [{ disinfectant: 'chlorine' }, 'broken'],
    [{ kind: 'surface', disinfectant: 'none' }, 'broken'],
    [{ kind: 'surface', disinfectant: 'none', treatment: ['ultraviolet'] }, 'met'],
    [null, 'unknown'],
  ])('thinned with %j: %s', (source, verdict) => {
    expect(thinned(source).outcome).toBe(verdict);
  });
  it('surface water rests on a guideline, chlorine on practice', () => {
    expect(thinned({ kind: 'surface', disinfectant: 'none' }).basis).toBe('guideline');
    expect(thinned({ disinfectant: 'chlorine' }).basis).toBe('practice');
  });
});
