import { describe, expect, it } from '@jest/globals';
import { evaluate } from '../engine/evaluate.ts';
import { acres, gal, id, instant, lb, ordinary, SeasonBuilder, type Beside } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

const brew = (season: SeasonBuilder) =>
  season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');

describe('record-timely', () => {
  const read = (beside: Beside, when = '06-02 12:00') => {
    const season = ordinary();
    brew(season).oxygen(when, 7, {}, beside);
    return outcomeOf(season.season(), 'record-timely', 'T-14');
  };
  it.each([
    ['06-02 16:00', 'met', 'exactly 4 h later'],
    ['06-02 16:01', 'broken', '4 h 1 min later'],
  ])('a reading of 12:00 typed at %s: %s, %s', (enteredAt, verdict) => {
    expect(read({ enteredAt }).outcome).toBe(verdict);
  });
  it('typed on the spot and delivered on Friday is not late', () => {
    expect(read({ recordedAt: '06-05 18:00' }).outcome).toBe('met');
  });
  it('without the time of typing, the arrival at the server counts', () => {
    const season = ordinary();
    brew(season);
    const reading = { batchId: id('T-14'), dissolvedOxygen: { value: 7, unit: 'mg/L' } };
    season.add('batch.oxygenMeasured', '06-02 12:00', reading, { enteredAt: 'not said', recordedAt: '06-05 18:00' });
    expect(outcomeOf(season.season(), 'record-timely', 'T-14').outcome).toBe('broken');
  });
  it('copied from paper made at the time is told apart from memory', () => {
    const paper = read({ enteredAt: '06-05 18:00', origin: 'fromPaper' });
    const memory = read({ enteredAt: '06-05 18:00', origin: 'fromMemory' });
    expect([paper.outcome, memory.outcome]).toEqual(['caution', 'broken']);
    expect(paper.message).toContain('copied from paper');
    expect(memory.message).toContain('from memory');
  });
  it.each([
    ['06-04 08:00', 'met', 'exactly 24 h later'],
    ['06-04 08:01', 'broken', '24 h 1 min later'],
  ])('an application that ended at 08:00 typed at %s: %s, %s', (enteredAt, verdict) => {
    const season = ordinary();
    brew(season).applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {}, { enteredAt });
    expect(outcomeOf(season.season(), 'record-timely', 'A-1').outcome).toBe(verdict);
  });
});

describe('record-complete', () => {
  const person = (season: SeasonBuilder, address = true) =>
    season.add('person.registered', '01-01 08:00', {
      personId: id('Ines'),
      personal: { name: 'Ines Harrow', ...(address ? { address: '12 Quillfen Lane' } : {}) },
    });
  const applied = (prepare: (season: SeasonBuilder) => unknown, area = true) => {
    const season = ordinary();
    prepare(season);
    brew(season).applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
      targets: [{ fieldId: id('North 4'), ...(area ? { area: acres(4) } : {}) }],
    });
    return outcomeOf(season.season(), 'record-complete', 'A-1');
  };
  it('who, when, where, how much, how and from which lots', () => {
    expect(applied(person).outcome).toBe('met');
  });
  it.each<[(season: SeasonBuilder) => unknown, boolean, string]>([
    [() => undefined, true, 'who applied it'],
    [(season) => person(season, false), true, 'the address of who applied it'],
    [person, false, 'the area treated'],
  ])('%# says what is missing', (prepare, area, missing) => {
    const outcome = applied(prepare, area);
    expect(outcome.outcome).toBe('broken');
    expect(outcome.message).toContain(missing);
  });
  it('an application of which no load is written names no batch of tea', () => {
    const season = ordinary();
    person(season);
    season.add('application.made', '06-03 08:00', {
      ...{ applicationId: id('A-1'), code: 'A-1', targets: [{ fieldId: id('North 4'), area: acres(4) }], draws: [] },
      tankMix: [{ lotId: id('M-1'), quantity: lb(1) }],
      ...{ startedAt: '2026-06-03T07:00:00-05:00', finishedAt: '2026-06-03T08:00:00-05:00' },
      ...{ method: 'soilDrench', applicator: id('Ines') },
    });
    const { outcome, said, figures } = outcomeOf(season.season(), 'record-complete', 'A-1');
    expect([outcome, figures[0]?.value]).toEqual(['broken', 1]);
    expect(said).toEqual({ key: 'record-complete.missing', with: { missing: [{ key: 'record-complete.batch' }] } });
  });

  const reviewed = (when?: string, harvest?: string, throughSeq = 1000) => {
    const season = ordinary();
    brew(season).applied('A-1', '06-03 07:00', '06-03 08:00').closed('06-03 09:00', gal(0));
    if (harvest !== undefined) season.harvest('H-1', 'North 4', harvest);
    if (when !== undefined)
      season.add('batch.reviewed', when, {
        batchId: id('T-14'),
        throughSeq,
        meaning: 'reviewed',
        statement: 'I have read these records.',
      });
    return season.season();
  };
  const review = (...given: Parameters<typeof reviewed>) => outcomeOf(reviewed(...given), 'record-complete', 'T-14');
  it.each<[string | undefined, string | undefined, string, string]>([
    ['07-03 09:00', undefined, 'met', 'exactly 30 days after the closing'],
    ['07-03 09:01', undefined, 'broken', 'a minute later'],
    [undefined, undefined, 'broken', 'never'],
    ['06-13 00:00', '06-20 09:00', 'met', '7 days before the first harvest'],
    ['06-13 00:01', '06-20 09:00', 'broken', 'later than 7 days before it'],
  ])('closed on 3 June at 09:00, reviewed at %s, harvest at %s: %s, %s', (when, harvest, verdict) => {
    expect(review(when, harvest).outcome).toBe(verdict);
  });
  it('rests on the first signature and on the last, each named once', () => {
    const once = review('06-05 09:00');
    expect(once.recordIds).toHaveLength(1);
    const season = ordinary();
    brew(season).applied('A-1', '06-03 07:00', '06-03 08:00').closed('06-03 09:00', gal(0));
    const signed = ['06-05 09:00', '06-06 09:00', '06-07 09:00'].map((when) =>
      season.add('batch.reviewed', when, {
        ...{ batchId: id('T-14'), throughSeq: 1000, meaning: 'reviewed', statement: 'I have read these records.' },
      }),
    );
    const { recordIds } = outcomeOf(season.season(), 'record-complete', 'T-14');
    expect(recordIds).toEqual([signed[0], signed[2]]);
  });
  it('a harvest less than 7 days after it was done: the words name the harvest, not the 30 days', () => {
    // Done 3 June; 7 days before a harvest on 8 June would be 1 June, before there was anything to sign.
    const outcome = review('06-05 09:00', '06-08 09:00');
    expect(outcome.outcome).toBe('broken');
    expect(outcome.message).toContain('later than 09:00 on 3 June 2026, when it was done: the first harvest was less');
    expect(outcome.message).toContain('less than 7 days off');
    expect(outcome.message).not.toContain('30 days');
    expect(review('07-03 09:01').message).toContain('30 days after it was done');
    expect(review('06-13 00:01', '06-20 09:00').message).toContain('7 days before the first harvest');
  });
  it('an operation that asks itself for the signature at once: the words name that, not a harvest', () => {
    const season = ordinary().adopted('05-01 00:00', [{ ruleId: 'record-complete', parameters: { reviewDays: 0 } }]);
    brew(season).applied('A-1', '06-03 07:00', '06-03 08:00').closed('06-03 09:00', gal(0));
    const { outcome, message } = outcomeOf(season.season(), 'record-complete', 'T-14');
    expect(outcome).toBe('broken');
    expect(message).toContain('0 days after it was done');
    expect(message).not.toContain('harvest');
  });
  it('records that came after the signature stand outside it', () => {
    expect(review('06-05 09:00', undefined, 3).outcome).toBe('caution');
  });
  it('is due until then, and rests on practice', () => {
    const outcome = outcomeOf(reviewed(), 'record-complete', 'T-14', { now: instant('06-10 09:00') });
    expect(outcome).toMatchObject({ outcome: 'due', dueAt: instant('07-03 09:00'), basis: 'practice' });
    const on = (now: string) => outcomeOf(reviewed(), 'record-complete', 'T-14', { now: instant(now) }).outcome;
    expect([on('07-03 09:00'), on('07-03 09:01')]).toEqual(['due', 'broken']);
  });
});

describe('record-consistent', () => {
  it('a code used twice names both', () => {
    const season = ordinary();
    brew(season);
    season.add('batch.opened', '06-05 05:00', {
      batchId: id('other'),
      code: 'T-14',
      kind: 'aeratedTea',
      vesselId: id('Tote 2'),
    });
    const open = season.season();
    const first = outcomeOf(open, 'record-consistent', 'T-14');
    expect(first).toMatchObject({ outcome: 'caution' });
    expect(first.recordIds).toHaveLength(2);
    expect(outcomeOf(open, 'record-consistent', 'other').outcome).toBe('caution');
  });
  it('a lot described twice: the last in order is shown, the finding names both', () => {
    const season = ordinary().lot('M-1', 'molasses', lb(50));
    expect(outcomeOf(season.season(), 'record-consistent', 'M-1').message).toContain('described 2 times');
  });
  it('two tanks with one code, and the code of a retired tank used again', () => {
    const season = ordinary();
    season.add('vessel.registered', '02-01 08:00', {
      vesselId: id('second'),
      code: 'Tote 2',
      totalVolume: gal(330),
      workingVolume: gal(300),
      previousContents: 'food',
    });
    expect(outcomeOf(season.season(), 'record-consistent', 'second').outcome).toBe('caution');
    season.add('vessel.retired', '01-31 08:00', { vesselId: id('Tote 2'), reason: 'cracked' });
    for (const tank of ['second', 'Tote 2']) {
      expect(() => outcomeOf(season.season(), 'record-consistent', tank)).toThrow(/says nothing/);
    }
  });
  it('rival amendments are named, until one of them is struck', () => {
    const season = ordinary();
    brew(season);
    const reading = season.add('batch.oxygenMeasured', '06-02 12:00', {
      batchId: id('T-14'),
      dissolvedOxygen: { value: 7, unit: 'mg/L' },
    });
    const amend = (value: number, when: string) =>
      season.amended(reading, 'batch.oxygenMeasured', when, {
        batchId: id('T-14'),
        dissolvedOxygen: { value, unit: 'mg/L' },
      });
    const first = amend(6, '06-03 09:00');
    expect(() => outcomeOf(season.season(), 'record-consistent', 'T-14')).toThrow(/says nothing/);
    const second = amend(5, '06-03 10:00');
    expect(outcomeOf(season.season(), 'record-consistent', 'T-14').recordIds).toEqual([reading, first, second]);
    season.struck(first, 'record.amended', '06-03 11:00');
    expect(() => outcomeOf(season.season(), 'record-consistent', 'T-14')).toThrow(/says nothing/);
  });
  it.each([
    ['06-02 04:00', false, 'before its first record'],
    ['06-02 05:30', true, 'after its first record, before its second'],
  ])('a batch that nobody opened is judged as of its first record: switched off at %s, told: %s, %s', (off, told) => {
    const season = ordinary().adopted(off, [{ ruleId: 'record-consistent', enabled: false }]);
    const filled = (volume: number) => ({ batchId: id('T-14'), sourceId: id('W1'), volume: gal(volume) });
    const fill = season.add('batch.filled', '06-02 05:00', filled(250));
    season.add('batch.airStarted', '06-02 06:00', { batchId: id('T-14') });
    season.amended(fill, 'batch.filled', '06-03 09:00', filled(240));
    season.amended(fill, 'batch.filled', '06-03 10:00', filled(230));
    const found = evaluate(season.season(), instant('2026-12-31 00:00')).filter(
      ({ ruleId, about, outcome }) =>
        ruleId === 'record-consistent' && about.id === id('T-14') && outcome === 'caution',
    );
    expect(found.length > 0).toBe(told);
  });
  it('a batch described once is not spoken of', () => {
    const season = ordinary();
    brew(season);
    expect(() => outcomeOf(season.season(), 'record-consistent', 'T-14')).toThrow(/says nothing/);
  });
});

describe('reference-known', () => {
  const unknownLot = (now: string, later = false) => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'late lot');
    if (later) season.lot('late lot', 'compost');
    return outcomeOf(season.season(), 'reference-known', 'T-14', { now: instant(now) });
  };
  it.each([
    ['06-03 06:00', 'due', 'a day later'],
    ['06-03 06:01', 'unknown', 'more than a day later'],
  ])('a lot that nobody recorded, looked at on %s: %s, %s', (now, verdict) => {
    expect(unknownLot(now).outcome).toBe(verdict);
  });
  it('falls into place when the lot arrives', () => {
    expect(unknownLot('06-10 06:00', true).outcome).toBe('met');
  });
});

describe('certifier-due', () => {
  const answered = (when?: string) => {
    const season = ordinary();
    const letter = season.add('certifier.wrote', '05-01 09:00', {
      reference: 'R-5',
      kind: 'condition',
      text: 'show the treatment record',
      dueOn: '2026-06-30',
    });
    if (when !== undefined) season.add('certifier.notified', when, { about: [letter], how: 'e-mail' });
    return season.season();
  };
  const verdict = (when?: string, now = '2026-12-01 00:00') => {
    const season = answered(when);
    return outcomeOf(season, 'certifier-due', 'operation', { now: instant(now), kind: 'operation' }).outcome;
  };
  it.each<[string | undefined, string, string, string]>([
    ['06-30 23:59', '2026-12-01 00:00', 'met', 'on the last day'],
    ['07-01 00:01', '2026-12-01 00:00', 'broken', 'the day after'],
    [undefined, '06-30 23:59', 'due', 'not yet, on the last day'],
    [undefined, '07-01 00:01', 'broken', 'not at all'],
  ])('a condition due on 30 June, answered at %s, looked at on %s: %s, %s', (when, now, expected) => {
    expect(verdict(when, now)).toBe(expected);
  });
});

describe('tea-supplied', () => {
  const supplied = (statementGiven: 'yes' | 'no' | 'unknown') => {
    const season = ordinary();
    brew(season);
    season.add('tea.supplied', '06-03 09:00', {
      batchId: id('T-14'),
      volume: gal(60),
      to: { name: 'neighbouring orchard' },
      statementGiven,
      sold: 'no',
    });
    return outcomeOf(season.season(), 'tea-supplied', 'T-14').outcome;
  };
  it.each([
    ['yes', 'met'],
    ['no', 'broken'],
    ['unknown', 'unknown'],
  ] as const)('passed on, statement given: %s: %s', (given, verdict) => {
    expect(supplied(given)).toBe(verdict);
  });
});

describe('person-trained', () => {
  const trained = (day?: string) => {
    const season = ordinary();
    season.add('person.registered', '01-01 08:00', { personId: id('Ines'), personal: { name: 'Ines Harrow' } });
    if (day !== undefined)
      season.add('person.trained', `${day} 09:00`, { personId: id('Ines'), topic: 'tea handling', by: 'farm office' });
    brew(season).applied('A-1', '06-03 07:00', '06-03 08:00');
    return outcomeOf(season.season(), 'person-trained', 'Ines').outcome;
  };
  it.each<[string | undefined, string]>([
    ['2025-06-03', 'met'],
    ['2025-06-02', 'broken'],
    [undefined, 'broken'],
  ])('applied on 3 June 2026, trained on %s: %s', (day, verdict) => {
    expect(trained(day)).toBe(verdict);
  });
  it('is asked of whoever sprayed, not of whoever wrote it down', () => {
    const season = ordinary();
    for (const name of ['Ines', 'Tobin'])
      season.add('person.registered', '01-01 08:00', { personId: id(name), personal: { name } });
    const wrote = { performedBy: id('Tobin') };
    brew(season).applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {}, wrote);
    expect(outcomeOf(season.season(), 'person-trained', 'Ines').outcome).toBe('broken');
    expect(() => outcomeOf(season.season(), 'person-trained', 'Tobin')).toThrow(/says nothing/);
  });
});

describe('odour-sound', () => {
  const smelled = (odour: 'earthy' | 'sour' | 'rotten', then: 'applied' | 'dumped' | 'nothing' | 'recovered') => {
    const season = ordinary();
    const batch = brew(season).checked('06-02 20:00', { odour });
    if (then === 'recovered') batch.checked('06-03 06:00', { odour: 'earthy' });
    if (then === 'applied' || then === 'recovered') batch.applied('A-1', '06-03 07:00', '06-03 08:00');
    if (then === 'dumped')
      season.add('batch.disposed', '06-03 07:00', {
        batchId: id('T-14'),
        volume: gal(250),
        reason: 'foul',
        where: 'pasture',
      });
    return outcomeOf(season.season(), 'odour-sound', 'T-14').outcome;
  };
  it.each([
    ['earthy', 'applied', 'met'],
    ['rotten', 'applied', 'broken'],
    ['sour', 'applied', 'broken'],
    ['sour', 'dumped', 'met'],
    ['sour', 'nothing', 'caution'],
    ['sour', 'recovered', 'caution'],
  ] as const)('smelled %s, then %s: %s', (odour, then, verdict) => {
    expect(smelled(odour, then)).toBe(verdict);
  });
});

describe('odour-sound, of a tea that turned more than once', () => {
  it.each([
    [['06-02 12:00 sour', '06-02 18:00 earthy', '06-03 06:00 rotten'], 'broken', 'rotten'],
    [['06-02 12:00 sour', '06-02 18:00 earthy', '06-03 06:30 earthy'], 'caution', 'sour'],
    // Foul twice on end is one turn, told by its first smell.
    [['06-02 12:00 sour', '06-02 18:00 rotten', '06-03 06:00 earthy'], 'caution', 'sour'],
    [['06-02 12:00 sour', '06-02 18:00 earthy', '06-02 20:00 rotten', '06-03 06:00 earthy'], 'caution', 'sour'],
  ] as const)('%j, then applied at 07:00: %s', (smells, verdict, named) => {
    const season = ordinary();
    const batch = brew(season);
    for (const smell of smells) {
      const [day = '', time = '', odour] = smell.split(' ');
      batch.checked(`${day} ${time}`, { odour });
    }
    batch.applied('A-1', '06-03 07:00', '06-03 08:00');
    const { outcome, message } = outcomeOf(season.season(), 'odour-sound', 'T-14');
    expect([outcome, message]).toEqual([verdict, expect.stringContaining(named)]);
  });

  it('dumped after it turned for the second time: what was applied between smelled sound', () => {
    const season = ordinary();
    brew(season)
      .checked('06-02 12:00', { odour: 'sour' })
      .checked('06-02 18:00', { odour: 'earthy' })
      .applied('A-1', '06-02 19:00', '06-02 20:00')
      .checked('06-03 06:00', { odour: 'rotten' });
    const last = { batchId: id('T-14'), volume: gal(50), reason: 'foul', where: 'pasture' };
    season.add('batch.disposed', '06-03 07:00', last);
    expect(outcomeOf(season.season(), 'odour-sound', 'T-14').outcome).toBe('caution');
  });
});

describe('odour-sound where times are not sure', () => {
  // Smelled sour at 07:00, applied from 07:30: an hour either way, and nobody knows which came first.
  const judged = (plusMinusMinutes: number, then: 'applied' | 'dumped' | 'recovered') => {
    const season = ordinary();
    const batch = brew(season).checked('06-03 07:00', { odour: 'sour' }, { plusMinusMinutes });
    if (then === 'recovered') batch.checked('06-03 07:20', { odour: 'earthy' }, { plusMinusMinutes });
    if (then === 'dumped')
      season.add('batch.disposed', '06-03 07:30', {
        batchId: id('T-14'),
        volume: gal(250),
        reason: 'foul',
        where: 'pasture',
      });
    else batch.applied('A-1', '06-03 07:30', '06-03 08:00');
    return outcomeOf(season.season(), 'odour-sound', 'T-14').outcome;
  };
  it.each([
    [0, 'applied', 'broken'],
    [29, 'applied', 'broken'],
    [30, 'applied', 'broken'],
    [31, 'applied', 'unknown'],
    [0, 'recovered', 'caution'],
    [5, 'recovered', 'caution'],
    // The sound smell may have been the earlier one.
    [10, 'recovered', 'unknown'],
    [0, 'dumped', 'met'],
    [30, 'dumped', 'met'],
    [31, 'dumped', 'unknown'],
  ] as const)('± %i min, then %s: %s', (plusMinusMinutes, then, verdict) => {
    expect(judged(plusMinusMinutes, then)).toBe(verdict);
  });
});

describe('odour-sound, where a sour and a sound smell may have come in the other order', () => {
  const judged = (sour: string, sourAbout: number, sound: string, soundAbout: number) => {
    const season = ordinary();
    brew(season)
      .checked(sour, { odour: 'sour' }, { plusMinusMinutes: sourAbout })
      .checked(sound, { odour: 'earthy' }, { plusMinusMinutes: soundAbout })
      .applied('A-1', '06-03 07:30', '06-03 08:00');
    return outcomeOf(season.season(), 'odour-sound', 'T-14').outcome;
  };
  it.each([
    // Sour at about 07:00, sound at 07:20, used at 07:30: sour as late as 07:20 it was not sound again after it.
    ['06-03 07:00', 19, '06-03 07:20', 0, 'caution'],
    ['06-03 07:00', 20, '06-03 07:20', 0, 'unknown'],
    ['06-03 07:00', 40, '06-03 07:20', 0, 'unknown'],
    // Sound at about 06:50, sour at 07:00: at the earliest a minute past seven it was sound again after it.
    ['06-03 07:00', 0, '06-03 06:50', 10, 'broken'],
    ['06-03 07:00', 0, '06-03 06:50', 11, 'unknown'],
  ])('sour at %s ± %i min, sound at %s ± %i min: %s', (sour, sourAbout, sound, soundAbout, verdict) => {
    expect(judged(sour, sourAbout, sound, soundAbout)).toBe(verdict);
  });
});

describe('recipe-followed', () => {
  const made = (compost: number, molasses: number | null, filled = 150, now = '06-04 00:00') => {
    const season = ordinary();
    season.add('recipe.published', '01-05 09:00', {
      recipeId: id('House tea'),
      edition: 1,
      code: 'House tea',
      kind: 'aeratedTea',
      basisVolume: gal(300),
      ingredients: [
        { materialId: id('compost'), amount: lb(10) },
        { materialId: id('molasses'), amount: lb(4) },
      ],
    });
    const batch = season
      .batch('T-14', undefined, { recipeId: id('House tea') })
      .filled('06-02 05:00', gal(filled))
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1', lb(compost));
    if (molasses !== null) batch.fed('06-02 06:05', 'M-1', lb(molasses));
    return outcomeOf(season.season(), 'recipe-followed', 'T-14', { now: instant(now) });
  };
  // Half the basis volume: 5 lb of compost ± 20 %, 2 lb of molasses ± 10 %.
  it.each<[number, number | null, string, string]>([
    [6, 2.2, 'met', 'both exactly at the upper end'],
    [4, 1.8, 'met', 'both exactly at the lower end'],
    [6.01, 2, 'broken', 'compost above 20 %'],
    [5, 2.21, 'broken', 'molasses above 10 %'],
    [5, null, 'broken', 'no molasses'],
  ])('%s lb of compost and %s lb of molasses in half the water: %s, %s', (compost, molasses, verdict) => {
    expect(made(compost, molasses).outcome).toBe(verdict);
  });
  /** The recipe asks for compost alone: 10 lb in 300 gal. */
  const compostAlone = () => {
    const season = ordinary();
    season.add('recipe.published', '01-05 09:00', {
      ...{ recipeId: id('House tea'), edition: 1, code: 'House tea', kind: 'aeratedTea', basisVolume: gal(300) },
      ingredients: [{ materialId: id('compost'), amount: lb(10) }],
    });
    return season;
  };
  it('what went in more than two hours after the brew began is a top-up, no part of the recipe', () => {
    const judged = (again: string) => {
      const season = compostAlone();
      season
        .batch('T-14', undefined, { recipeId: id('House tea') })
        .filled('06-02 05:00', gal(300))
        .fed('06-02 06:00', 'C-1', lb(10))
        .fed(again, 'C-1', lb(5));
      return outcomeOf(season.season(), 'recipe-followed', 'T-14').outcome;
    };
    expect([judged('06-02 08:00'), judged('06-02 08:01')]).toEqual(['broken', 'met']);
  });
  it('water measured in pails that nobody gauged leaves the amounts open', () => {
    const season = compostAlone();
    season
      .batch('T-14', undefined, { recipeId: id('House tea') })
      .filled('06-02 05:00', { value: 20, unit: '{measure}', measureId: id('pail') })
      .fed('06-02 06:00', 'C-1', lb(5));
    expect(outcomeOf(season.season(), 'recipe-followed', 'T-14').outcome).toBe('unknown');
  });
  it('the words say what the recipe asks of this much water, and what counts as such', () => {
    expect(made(3, 2).message).toContain('3 lb of compost; the recipe asks for 5 lb, 4 to 6 count as such');
  });
  it('what may be left out by the recipe is neither missed nor waited for', () => {
    const judged = (molasses: number | null, now: string) => {
      const season = ordinary();
      season.add('recipe.published', '01-05 09:00', {
        ...{ recipeId: id('House tea'), edition: 1, code: 'House tea', kind: 'aeratedTea', basisVolume: gal(300) },
        ingredients: [
          { materialId: id('compost'), amount: lb(10) },
          { materialId: id('molasses'), amount: lb(2), from: lb(0), to: lb(4) },
        ],
      });
      const batch = season
        .batch('T-14', undefined, { recipeId: id('House tea') })
        .filled('06-02 05:00', gal(300))
        .fed('06-02 06:00', 'C-1', lb(10));
      if (molasses !== null) batch.fed('06-02 06:05', 'M-1', lb(molasses));
      return outcomeOf(season.season(), 'recipe-followed', 'T-14', { now: instant(now) }).outcome;
    };
    expect([judged(null, '06-02 07:00'), judged(null, '06-04 00:00')]).toEqual(['met', 'met']);
    expect([judged(4, '06-04 00:00'), judged(4.1, '06-04 00:00')]).toEqual(['met', 'broken']);
  });
  it.each([
    ['nutrient', 'caution'],
    ['extract', 'caution'],
    ['antifoam', 'met'],
  ] as const)('what the recipe does not name, a %s, is told: %s', (kind, verdict) => {
    const season = compostAlone().material('extra', { kind }).lot('E-1', 'extra');
    season
      .batch('T-14', undefined, { recipeId: id('House tea') })
      .filled('06-02 05:00', gal(300))
      .fed('06-02 06:00', 'C-1', lb(10))
      .fed('06-02 06:30', 'E-1', lb(1));
    const { outcome, message } = outcomeOf(season.season(), 'recipe-followed', 'T-14');
    expect(outcome).toBe(verdict);
    expect(message.includes('Extra went in and is not in the recipe')).toBe(verdict === 'caution');
  });
  it('within two hours the rest of the recipe may still come', () => {
    expect(made(5, null, 150, '06-02 07:00')).toMatchObject({ outcome: 'due', due: 'add molasses' });
  });
});

describe('rule-book-adopted', () => {
  const judged = (season: SeasonBuilder) =>
    outcomeOf(season.season(), 'rule-book-adopted', 'operation', { kind: 'operation' });
  it('an entry that names no rule, no parameter or no possible value is recorded, has no effect and is shown', () => {
    const season = ordinary().adopted('05-01 00:00', [
      { ruleId: 'no-such-rule', enabled: false },
      { ruleId: 'hold-maximum', parameters: { limitMinutes: 7, limitHours: -1 } },
    ]);
    const outcome = judged(season);
    expect(outcome.outcome).toBe('caution');
    expect(outcome.message).toContain('there is no rule “no-such-rule”');
    expect(outcome.message).toContain('hold-maximum has no parameter “limitMinutes”');
    expect(outcome.message).toContain('limitHours cannot be -1');
  });
  it.each([
    [9, 9, false],
    [10, 10, false],
    [11, 10, true],
  ])('of %i rulings that nobody has on record, %i are named; that there are others is said: %s', (n, named, others) => {
    const season = ordinary().adopted(
      '05-01 00:00',
      Array.from({ length: n }, (_, i) => ({
        ...{ ruleId: 'hold-maximum', parameters: { limitHours: 7 }, certifierReference: `L-${String(i)}` },
      })),
    );
    const { message } = judged(season);
    expect(message.match(/L-\d/g)).toHaveLength(named);
    expect(message.includes('L-9 …')).toBe(others);
  });
  it('a back-dated adoption lists what it changed', () => {
    const season = ordinary();
    brew(season).airOff('06-03 06:00').applied('A-1', '06-03 07:00', '06-03 14:30');
    season.adopted('05-01 00:00', [{ ruleId: 'hold-maximum', parameters: { limitHours: 10 } }], {
      when: '06-20 09:00',
    });
    const outcome = judged(season);
    expect(outcome.outcome).toBe('caution');
    expect(outcome.message).toContain('T-14 · North 4 hold-maximum from broken to caution');
  });
  it('a back-dated adoption under which every batch comes out the same is met', () => {
    const season = ordinary();
    brew(season).airOff('06-03 06:00').applied('A-1', '06-03 07:00', '06-03 08:00');
    season.adopted('05-01 00:00', [{ ruleId: 'hold-maximum', parameters: { limitHours: 10 } }], {
      when: '06-20 09:00',
    });
    expect(judged(season).outcome).toBe('met');
  });
  it('one written down before it holds changes nothing earlier', () => {
    const season = ordinary().adopted('07-01 00:00', [{ ruleId: 'hold-maximum', parameters: { limitHours: 10 } }], {
      when: '06-20 09:00',
    });
    brew(season).airOff('06-03 06:00').applied('A-1', '06-03 07:00', '06-03 14:30');
    expect(judged(season).outcome).toBe('met');
  });
});
