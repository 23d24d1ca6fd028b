import { describe, expect, it } from '@jest/globals';
import { v5 } from 'uuid';
import { findings, judgeBatch, type Finding } from './index.ts';
import { fahrenheit, gal, id, instant, lb, mgPerL, operation, ordinary, type SeasonBuilder } from './testing/season.ts';

const now = instant('2026-07-01 00:00');
const about = (season: SeasonBuilder, ruleId: string, at = now): Finding[] =>
  findings(season.season(), at).filter((each) => each.ruleId === ruleId);

/** Held until 16:00 after the air went off at 06:30: 9 h 30 min against 8. */
const heldTooLong = () => {
  const season = ordinary();
  season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').oxygen('06-03 05:00', 7);
  const off = season.add('batch.airStopped', '06-03 06:30', { batchId: id('T-14') });
  const application = season.add('application.made', '06-03 16:00', {
    applicationId: id('A-1'),
    code: 'A-1',
    targets: [{ fieldId: id('North 4') }],
    draws: [{ batchId: id('T-14'), volume: gal(250) }],
    startedAt: '2026-06-03T07:30:00-05:00',
    finishedAt: '2026-06-03T16:00:00-05:00',
    method: 'soilDrench',
    applicator: id('Ines'),
  });
  return { season, off, application };
};
const holdId = (season: SeasonBuilder): string => about(season, 'hold-maximum')[0]?.findingId ?? '';

describe('findings', () => {
  it('an open one has rule, figures, records, since when and where it stands', () => {
    const { season, application } = heldTooLong();
    const [finding] = about(season, 'hold-maximum');
    expect(finding).toMatchObject({
      outcome: 'broken',
      state: 'open',
      standing: true,
      since: '2026-06-03T21:00:00.000Z',
      answers: [],
      severity: 'minor',
      basis: 'practice',
    });
    expect(finding?.recordIds).toContain(application);
  });

  it('its id is UUIDv5 of rule, kind and subject under the operation (RFC 9562 §5.5)', () => {
    const { season } = heldTooLong();
    const [finding] = about(season, 'hold-maximum');
    expect(finding?.findingId).toBe(v5(`hold-maximum|draw|${finding?.about.id ?? ''}`, operation));
  });

  it('answered as done it is answered, answered as open it stays open', () => {
    const answer = (state: 'open' | 'done' | 'accepted') => {
      const { season } = heldTooLong();
      season.add('finding.answered', '06-05 09:00', {
        findingId: holdId(season),
        cause: 'pump failed',
        action: 'spare bought',
        state,
      });
      return about(season, 'hold-maximum')[0];
    };
    expect(answer('done')).toMatchObject({
      state: 'answered',
      standing: true,
      answers: [{ cause: 'pump failed', state: 'done' }],
    });
    expect(answer('open')?.state).toBe('open');
    expect(answer('accepted')?.state).toBe('answered');
  });

  it('an amended time resolves it, and names the amendment', () => {
    const { season, application } = heldTooLong();
    const amendment = season.amended(application, 'application.made', '06-04 09:00', {
      applicationId: id('A-1'),
      code: 'A-1',
      targets: [{ fieldId: id('North 4') }],
      draws: [{ batchId: id('T-14'), volume: gal(250) }],
      startedAt: '2026-06-03T07:30:00-05:00',
      finishedAt: '2026-06-03T08:00:00-05:00',
      method: 'soilDrench',
      applicator: id('Ines'),
    });
    expect(about(season, 'hold-maximum')).toMatchObject([
      { state: 'resolved', standing: false, outcome: 'broken', resolvedBy: amendment },
    ]);
  });

  it('a hold amended from past its limit to past the advised hours only is resolved', () => {
    const { season, application } = heldTooLong();
    const amendment = season.amended(application, 'application.made', '06-04 09:00', {
      applicationId: id('A-1'),
      code: 'A-1',
      targets: [{ fieldId: id('North 4') }],
      draws: [{ batchId: id('T-14'), volume: gal(250) }],
      startedAt: '2026-06-03T13:00:00-05:00',
      finishedAt: '2026-06-03T14:00:00-05:00',
      method: 'soilDrench',
      applicator: id('Ines'),
    });
    const judged = judgeBatch(season.season(), id('T-14'), now).find((each) => each.ruleId === 'hold-maximum');
    expect(judged?.outcome).toBe('caution');
    expect(about(season, 'hold-maximum')).toMatchObject([
      { state: 'resolved', standing: false, resolvedBy: amendment },
    ]);
  });

  it('a struck reading resolves what it broke', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').oxygen('06-02 12:00', 8);
    const wrong = season.add('batch.oxygenMeasured', '06-02 20:00', {
      batchId: id('T-14'),
      dissolvedOxygen: mgPerL(2),
    });
    season.add('batch.oxygenMeasured', '06-03 05:00', { batchId: id('T-14'), dissolvedOxygen: mgPerL(8) });
    const strike = season.struck(wrong, 'batch.oxygenMeasured', '06-04 09:00');
    expect(about(season, 'oxygen-minimum')).toMatchObject([{ state: 'resolved', resolvedBy: strike }]);
  });

  it('of two corrections, each enough alone, the one of a record that the finding was made of is named', () => {
    const season = ordinary();
    const opened = season.add('batch.opened', '06-02 04:00', {
      ...{ batchId: id('T-14'), code: 'T-14', kind: 'aeratedTea', vesselId: id('Tote 2') },
    });
    const add = (type: 'batch.filled' | 'batch.ingredientAdded', when: string) =>
      type === 'batch.filled'
        ? season.add(type, when, { batchId: id('T-14'), sourceId: id('W1'), volume: gal(250) })
        : season.add(type, when, { batchId: id('T-14'), lotId: id('C-1'), quantity: lb(5) });
    add('batch.filled', '06-02 05:00');
    add('batch.ingredientAdded', '06-02 06:00');
    const wrong = season.add('batch.oxygenMeasured', '06-02 20:00', {
      ...{ batchId: id('T-14'), dissolvedOxygen: mgPerL(2) },
    });
    // An extract has no air to measure, and the reading was typed wrongly.
    season.amended(opened, 'batch.opened', '06-03 09:00', {
      ...{ batchId: id('T-14'), code: 'T-14', kind: 'extract', vesselId: id('Tote 2') },
    });
    const strike = season.struck(wrong, 'batch.oxygenMeasured', '06-04 09:00');
    expect(about(season, 'oxygen-minimum')).toMatchObject([{ state: 'resolved', resolvedBy: strike }]);
  });

  it('of two corrections of one record the one that brought it inside is named, not a later one of something else', () => {
    const { season, application } = heldTooLong();
    const amend = (when: string, finishedAt: string, method: 'soilDrench' | 'foliar') =>
      season.amended(application, 'application.made', when, {
        ...{ applicationId: id('A-1'), code: 'A-1', targets: [{ fieldId: id('North 4') }] },
        draws: [{ batchId: id('T-14'), volume: gal(250) }],
        ...{ startedAt: '2026-06-03T07:30:00-05:00', finishedAt, method, applicator: id('Ines') },
      });
    const hour = amend('06-04 09:00', '2026-06-03T08:00:00-05:00', 'soilDrench');
    amend('06-04 10:00', '2026-06-03T08:00:00-05:00', 'foliar');
    expect(about(season, 'hold-maximum')).toMatchObject([{ state: 'resolved', resolvedBy: hour }]);
  });

  it('of two low readings, both struck, the strike after which none was left is named', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
    const read = (when: string, mg: number) =>
      season.add('batch.oxygenMeasured', when, { batchId: id('T-14'), dissolvedOxygen: mgPerL(mg) });
    const wrong = [read('06-02 12:00', 2), read('06-02 16:00', 3)];
    read('06-02 20:00', 8);
    const strikes = wrong.map((record, i) => season.struck(record, 'batch.oxygenMeasured', `06-04 09:0${String(i)}`));
    expect(about(season, 'oxygen-minimum')).toMatchObject([{ state: 'resolved', resolvedBy: strikes[1] }]);
  });

  it('amended and struck in one minute, each enough alone: the amendment counts as the first, whatever their ids', () => {
    const named = new Set<string>();
    let strikeWasLower = 0;
    for (let before = 0; before < 8; before += 1) {
      const season = ordinary();
      for (let i = 0; i < before; i += 1) season.tested('W1', '05-02');
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .airOn('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .oxygen('06-02 12:00', 8);
      const wrong = season.add('batch.oxygenMeasured', '06-02 20:00', {
        ...{ batchId: id('T-14'), dissolvedOxygen: mgPerL(2) },
      });
      const amendment = season.amended(wrong, 'batch.oxygenMeasured', '06-04 09:00', {
        ...{ batchId: id('T-14'), dissolvedOxygen: mgPerL(8) },
      });
      const strike = season.struck(wrong, 'batch.oxygenMeasured', '06-04 09:00');
      if (strike < amendment) strikeWasLower += 1;
      const [found] = about(season, 'oxygen-minimum');
      named.add(found?.resolvedBy === amendment ? 'amendment' : 'strike');
    }
    expect(strikeWasLower).toBeGreaterThan(0);
    expect(strikeWasLower).toBeLessThan(8);
    expect([...named]).toEqual(['amendment']);
  });

  it('where no record of the finding was corrected, the correction without which it would stand is named', () => {
    const season = ordinary();
    const described = { batchId: id('T-14'), code: 'T-14', vesselId: id('Tote 2') };
    const opened = season.add('batch.opened', '06-02 04:00', { ...described, kind: 'aeratedTea' });
    season.add('batch.filled', '06-02 05:00', { batchId: id('T-14'), sourceId: id('W1'), volume: gal(250) });
    season.add('batch.ingredientAdded', '06-02 06:00', { batchId: id('T-14'), lotId: id('C-1'), quantity: lb(5) });
    season.add('batch.oxygenMeasured', '06-02 20:00', { batchId: id('T-14'), dissolvedOxygen: mgPerL(2) });
    season.batch('T-15', '06-02 04:00').filled('06-02 05:00');
    const elsewhere = season.add('batch.oxygenMeasured', '06-02 21:00', {
      ...{ batchId: id('T-15'), dissolvedOxygen: mgPerL(8) },
    });
    // An extract has no air to measure; what is struck later belongs to another tank.
    const kind = season.amended(opened, 'batch.opened', '06-03 09:00', { ...described, kind: 'extract' });
    season.struck(elsewhere, 'batch.oxygenMeasured', '06-04 09:00');
    expect(about(season, 'oxygen-minimum')).toMatchObject([{ state: 'resolved', resolvedBy: kind }]);
  });

  /** A low reading, corrected by what `correct` adds: the tea was no brew but an extract, which has no air to measure. */
  const lowReading = (correct: (made: LowReading) => string) => {
    const season = ordinary();
    const described = { batchId: id('T-14'), code: 'T-14', vesselId: id('Tote 2') };
    const opened = season.add('batch.opened', '06-02 04:00', { ...described, kind: 'aeratedTea' });
    season.add('batch.filled', '06-02 05:00', { batchId: id('T-14'), sourceId: id('W1'), volume: gal(250) });
    season.add('batch.ingredientAdded', '06-02 06:00', { batchId: id('T-14'), lotId: id('C-1'), quantity: lb(5) });
    const low = { batchId: id('T-14'), dissolvedOxygen: mgPerL(2) };
    const reading = season.add('batch.oxygenMeasured', '06-02 20:00', low);
    const expected = correct({
      season,
      extract: (when) => season.amended(opened, 'batch.opened', when, { ...described, kind: 'extract' }),
      warmth: (when, f) =>
        season.amended(reading, 'batch.oxygenMeasured', when, { ...low, temperature: fahrenheit(f) }),
      strike: (when) => season.struck(reading, 'batch.oxygenMeasured', when),
    });
    return { found: about(season, 'oxygen-minimum'), expected };
  };
  interface LowReading {
    readonly season: SeasonBuilder;
    readonly extract: (when: string) => string;
    readonly warmth: (when: string, f: number) => string;
    readonly strike: (when: string) => string;
  }
  it.each<[string, (made: LowReading) => string]>([
    [
      'an amendment that was struck is none of them, nor is its strike',
      ({ season, extract }) => {
        const wrong = extract('06-03 09:00');
        const right = extract('06-04 09:00');
        season.struck(wrong, 'record.amended', '06-05 09:00');
        return right;
      },
    ],
    [
      'the warmth of the water, written to the reading twice, changes nothing: the amendment of something else is named',
      ({ extract, warmth }) => {
        const kind = extract('06-03 09:00');
        warmth('06-04 09:00', 60);
        warmth('06-05 09:00', 61);
        return kind;
      },
    ],
    [
      'where each of several is enough alone, the last of those of its own records',
      ({ extract, warmth, strike }) => {
        extract('06-03 09:00');
        warmth('06-04 09:00', 60);
        const struck = strike('06-05 09:00');
        extract('06-06 09:00');
        return struck;
      },
    ],
  ])('which correction resolved it: %s', (_, correct) => {
    const { found, expected } = lowReading(correct);
    expect(found).toMatchObject([{ state: 'resolved', resolvedBy: expected }]);
  });

  it('came to be when the last of its records happened, whichever of them is named first', () => {
    // The field was registered on 1 January, cut on 14 June.
    const season = ordinary().field('New', { landStatus: 'transition' });
    season.harvest('H-1', 'New', '06-14 09:00');
    expect(about(season, 'harvest-organic')).toMatchObject([{ since: '2026-06-14T14:00:00.000Z' }]);
  });

  it('are listed the oldest first, those of one moment by their ids', () => {
    const { season } = heldTooLong();
    for (const code of ['H-1', 'H-2', 'H-3', 'H-4']) season.field(code, { landStatus: 'transition' });
    for (const code of ['H-1', 'H-2', 'H-3', 'H-4']) season.harvest(code, code, '06-14 09:00');
    const all = findings(season.season(), now).map(({ since, findingId }) => `${since ?? ''} ${findingId}`);
    expect(all.length).toBeGreaterThan(4);
    expect(all).toEqual(all.toSorted());
  });

  it('a record moved from the wrong tank resolves what was missing in the right one', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00')
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(240));
    season.batch('T-15').filled('06-02 05:00');
    const other = season.add('batch.oxygenMeasured', '06-03 05:00', {
      batchId: id('T-15'),
      dissolvedOxygen: mgPerL(8),
    });
    expect(about(season, 'oxygen-minimum').map((each) => each.state)).toEqual(['open']);
    const moved = season.amended(other, 'batch.oxygenMeasured', '06-04 09:00', {
      batchId: id('T-14'),
      dissolvedOxygen: mgPerL(8),
    });
    expect(about(season, 'oxygen-minimum')).toMatchObject([
      { state: 'resolved', resolvedBy: moved, outcome: 'unknown' },
    ]);
  });

  it('an amendment that breaks a limit opens a finding', () => {
    const { season, application } = heldTooLong();
    season.struck(application, 'application.made', '06-03 17:00');
    expect(about(season, 'hold-maximum').map((each) => each.state)).toContain('resolved');
    const fine = ordinary();
    fine.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').oxygen('06-02 12:00', 8);
    const reading = fine.add('batch.oxygenMeasured', '06-02 20:00', {
      batchId: id('T-14'),
      dissolvedOxygen: mgPerL(8),
    });
    fine.amended(reading, 'batch.oxygenMeasured', '06-04 09:00', { batchId: id('T-14'), dissolvedOxygen: mgPerL(2) });
    expect(about(fine, 'oxygen-minimum')).toMatchObject([{ state: 'open', standing: true }]);
  });

  it('an answer to one that no longer stands is shown as answered, no longer standing', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'late lot');
    const open = () => about(season, 'reference-known');
    season.add('finding.answered', '06-04 09:00', {
      findingId: open()[0]?.findingId ?? '',
      cause: 'phone was off',
      action: 'sent',
      state: 'done',
    });
    season.lot('late lot', 'compost', lb(50));
    // Ines is still not registered in this season, but nothing here names her.
    expect(open()).toMatchObject([{ state: 'answered', standing: false, outcome: 'met' }]);
  });

  it('what is only due is no finding', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
    const early = instant('06-02 07:00');
    expect(judgeBatch(season.season(), id('T-14'), early).some((each) => each.outcome === 'due')).toBe(true);
    expect(findings(season.season(), early).some((each) => each.outcome === 'due')).toBe(false);
  });

  it('a late arrival changes findings as if it had been there all along', () => {
    const { season } = heldTooLong();
    // The tank was aerated again before spraying, and the telephone delivered it a week later.
    season.add('batch.airStarted', '06-03 07:00', { batchId: id('T-14') }, { recordedAt: '06-10 12:00' });
    season.add('batch.checked', '06-03 07:10', { batchId: id('T-14'), odour: 'earthy' }, { recordedAt: '06-10 12:00' });
    expect(about(season, 'hold-maximum')[0]?.figures[0]?.value).toBe(8.5);
  });
});
