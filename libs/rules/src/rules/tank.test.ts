import { describe, expect, it } from '@jest/globals';
import { gal, id, instant, ordinary } from '../testing/season.ts';
import { outcomeOf } from '../testing/verdicts.ts';

describe('fill-level: the working volume of 300 gal', () => {
  it.each([
    [300, 'met', 'filled exactly to it'],
    [300.5, 'broken', 'half a gallon above it'],
  ])('%s gal: %s, %s', (volume, verdict) => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00', gal(volume));
    expect(outcomeOf(season.season(), 'fill-level', 'T-14').outcome).toBe(verdict);
  });
  it('a load put back can overfill a tank that was filled in between', () => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00', gal(250))
      .drawn('06-02 08:00', 'load', gal(100))
      .filled('06-02 09:00', gal(120));
    season.add('draw.ended', '06-02 10:00', { drawId: id('load'), volume: gal(60), fate: 'putBack' });
    // 250 − 100 + 120 + 60 = 330 gal.
    expect(outcomeOf(season.season(), 'fill-level', 'T-14').outcome).toBe('broken');
  });
  it('litres against gallons: 1,135.6235352 L are exactly 300 gal (NIST Handbook 44: 3.785411784 L)', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00', { value: 1135.6235352, unit: 'L' });
    expect(outcomeOf(season.season(), 'fill-level', 'T-14').outcome).toBe('met');
  });
  it('a tank that nobody registered has no working volume', () => {
    const season = ordinary();
    season.batch('T-14', undefined, { vesselId: id('Tote 9') }).filled('06-02 05:00');
    expect(outcomeOf(season.season(), 'fill-level', 'T-14').outcome).toBe('unknown');
  });
});

describe('volume-balance', () => {
  const closedWith = (drawn: number, remaining?: number) => {
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00', gal(200))
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(drawn))
      .closed('06-03 09:00', remaining === undefined ? undefined : gal(remaining));
    return outcomeOf(season.season(), 'volume-balance', 'T-14').outcome;
  };
  it.each<[number, number | undefined, string, string]>([
    [170, 10, 'met', 'exactly 10 % of 200 gal not accounted for'],
    [169, 10, 'broken', '21 gal not accounted for'],
    [150, undefined, 'unknown', '50 gal open, and what was left nobody wrote down'],
    [195, undefined, 'met', '5 gal open'],
    [221, 0, 'broken', 'more drawn than was filled in'],
    [221, undefined, 'broken', 'more drawn than was filled in, whatever was left'],
  ])('%s gal drawn, %s left: %s, %s', (drawn, remaining, verdict) => {
    expect(closedWith(drawn, remaining)).toBe(verdict);
  });
  it('is a notice', () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00', gal(200)).closed('06-03 09:00', gal(0));
    expect(outcomeOf(season.season(), 'volume-balance', 'T-14')).toMatchObject({
      outcome: 'broken',
      severity: 'notice',
    });
  });
});

describe('vessel-clean', () => {
  const second = (cleaned?: string, rinsed = true, plusMinusMinutes = 0) => {
    const season = ordinary();
    season
      .batch('T-13', '06-01 04:00')
      .filled('06-01 05:00')
      .fed('06-01 06:00', 'C-1')
      .applied('A-1', '06-02 07:00', '06-02 08:00')
      .closed('06-02 09:00', gal(0));
    if (cleaned !== undefined) {
      season.add(
        'vessel.cleaned',
        cleaned,
        { vesselId: id('Tote 2'), method: 'hot water', rinsed },
        { plusMinusMinutes },
      );
    }
    season
      .batch('T-14', '06-03 04:00')
      .filled('06-03 05:00')
      .fed('06-03 06:00', 'C-1')
      .applied('A-2', '06-04 07:00', '06-04 08:00')
      .closed('06-04 09:00');
    return outcomeOf(season.season(), 'vessel-clean', 'T-14').outcome;
  };
  it.each<[string | undefined, boolean, string, string]>([
    [undefined, true, 'broken', 'no cleaning between two teas'],
    ['06-02 10:00', true, 'met', 'cleaned between them'],
    ['06-02 10:00', false, 'caution', 'cleaned but not rinsed'],
    ['06-02 06:59', true, 'broken', 'cleaned a minute before the tea left'],
    ['06-02 07:00', true, 'met', 'cleaned in the minute in which the tea left'],
    ['06-03 05:00', true, 'met', 'cleaned in the minute of the fill'],
    ['06-03 05:01', true, 'broken', 'cleaned a minute after the fill'],
    ['06-01 04:30', true, 'broken', 'cleaned before the earlier tea'],
    ['06-03 05:30', true, 'broken', 'cleaned after the fill'],
  ])('cleaned at %s (rinsed: %s): %s, %s', (cleaned, rinsed, verdict) => {
    expect(second(cleaned, rinsed)).toBe(verdict);
  });
  it('a batch closed on paper after the next fill does not undo the cleaning before it', () => {
    const season = ordinary();
    season
      .batch('T-13', '06-01 04:00')
      .filled('06-01 05:00')
      .fed('06-01 06:00', 'C-1')
      .applied('A-1', '06-02 07:00', '06-02 08:00')
      .closed('06-04 09:00', gal(0));
    season.add('vessel.cleaned', '06-02 10:00', { vesselId: id('Tote 2'), method: 'hot water', rinsed: true });
    season
      .batch('T-14', '06-03 04:00')
      .filled('06-03 05:00')
      .fed('06-03 06:00', 'C-1')
      .applied('A-2', '06-04 07:00', '06-04 08:00')
      .closed('06-04 09:00');
    expect(outcomeOf(season.season(), 'vessel-clean', 'T-14').outcome).toBe('met');
  });
  it('a tank that was closed with tea left at about eight may not have been empty when it was cleaned at a quarter past', () => {
    const cleanedAfter = (closedAbout: number) => {
      const season = ordinary();
      season
        .batch('T-13', '06-01 04:00')
        .filled('06-01 05:00')
        .fed('06-01 06:00', 'C-1')
        .drawn('06-02 08:00', 'load', gal(100));
      const left = { batchId: id('T-13'), remainingVolume: gal(50) };
      season.add('batch.closed', '06-02 08:00', left, { plusMinusMinutes: closedAbout });
      season.add('vessel.cleaned', '06-02 08:15', { vesselId: id('Tote 2'), method: 'hot water', rinsed: true });
      season.batch('T-14', '06-03 04:00').filled('06-03 05:00').fed('06-03 06:00', 'C-1').closed('06-04 09:00', gal(0));
      return outcomeOf(season.season(), 'vessel-clean', 'T-14').outcome;
    };
    expect(cleanedAfter(0)).toBe('met');
    expect(cleanedAfter(30)).toBe('unknown');
  });
  it('a cleaning at about five may have been after the fill', () => {
    expect(second('06-03 04:50', true, 30)).toBe('unknown');
  });
  it('one that may have been as late as the minute in which the tea left, at seven, may have been after it', () => {
    expect([second('06-02 06:50', true, 10), second('06-02 06:50', true, 9)]).toEqual(['unknown', 'broken']);
  });

  it('one that was emptied by its loads, though nobody closed it, is not full any more', () => {
    const season = ordinary();
    season
      .batch('T-14', '06-01 04:00')
      .filled('06-01 05:00')
      .fed('06-01 06:00', 'C-1')
      .applied('A-1', '06-02 07:00', '06-02 08:00', 'North 4', gal(250));
    expect(outcomeOf(season.season(), 'vessel-clean', 'T-14', { now: instant('06-20 05:00') }).outcome).toBe(
      'notApplicable',
    );
  });

  const continuous = (until: string) => {
    const season = ordinary();
    season
      .batch('T-14', '06-01 04:00')
      .filled('06-01 05:00')
      .fed('06-01 06:00', 'C-1')
      .applied('A-1', until, until, 'North 4', gal(250))
      .closed(until, gal(0));
    return outcomeOf(season.season(), 'vessel-clean', 'T-14').outcome;
  };
  it.each([
    ['06-08 05:00', 'notApplicable', 'exactly 7 days'],
    ['06-08 05:01', 'caution', 'past 7 days'],
    ['06-15 05:00', 'caution', 'exactly 14 days'],
    ['06-15 05:01', 'broken', 'past 14 days'],
  ])('a brewer that ran from 1 June 05:00 to %s: %s, %s', (until, verdict) => {
    expect(continuous(until)).toBe(verdict);
  });
  it('a tank filled, never drawn from and closed on paper after the next fill was left when it was filled', () => {
    const season = ordinary();
    season.batch('T-13', '06-01 04:00').filled('06-01 05:00').closed('06-03 09:00', gal(100));
    season.add('vessel.cleaned', '06-01 12:00', { vesselId: id('Tote 2'), method: 'scrubbed', rinsed: true });
    season.batch('T-14', '06-02 04:00').filled('06-02 05:00').fed('06-02 06:00', 'C-1').closed('06-02 07:00', gal(0));
    const { outcome, message } = outcomeOf(season.season(), 'vessel-clean', 'T-14');
    expect(outcome).toBe('met');
    expect(message).toContain('T-13');
  });
  it('a running brewer is told when to empty it', () => {
    const season = ordinary();
    season.batch('T-14', '06-01 04:00').filled('06-01 05:00').airOn('06-01 05:00').fed('06-01 06:00', 'C-1');
    const at = (now: string) => outcomeOf(season.season(), 'vessel-clean', 'T-14', { now: instant(now) });
    expect(at('06-02 05:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-08 05:00') });
    expect(at('06-10 05:00')).toMatchObject({ outcome: 'due', dueAt: instant('06-15 05:00') });
    expect(at('06-15 05:01').outcome).toBe('broken');
  });
});

describe('vessel-history', () => {
  const past = (previousContents: 'none' | 'food' | 'unknown' | 'other') => {
    const season = ordinary().vessel('Tote 3', { previousContents });
    season.batch('T-14', undefined, { vesselId: id('Tote 3') }).filled('06-02 05:00');
    return outcomeOf(season.season(), 'vessel-history', 'Tote 3').outcome;
  };
  it.each([
    ['none', 'met'],
    ['food', 'met'],
    ['unknown', 'unknown'],
    ['other', 'broken'],
  ] as const)('a tote that held %s: %s', (contents, verdict) => {
    expect(past(contents)).toBe(verdict);
  });
  it('is judged by the rule book of the first fill of the first tea, whatever was adopted since', () => {
    const judged = (...fills: readonly string[]) => {
      const season = ordinary().vessel('Tote 3', { previousContents: 'other' });
      season.adopted('06-02 06:00', [{ ruleId: 'vessel-history', severity: 'critical' }]);
      const batch = season.batch('T-14', undefined, { vesselId: id('Tote 3') });
      for (const fill of fills) batch.filled(fill);
      season.batch('T-15', '06-09 04:00', { vesselId: id('Tote 3') }).filled('06-09 05:00');
      return outcomeOf(season.season(), 'vessel-history', 'Tote 3').severity;
    };
    expect([judged('06-02 05:00'), judged('06-02 05:00', '06-02 07:00'), judged('06-02 06:00')]).toEqual([
      ...['major', 'major', 'critical'],
    ]);
  });
  it('what is found out later settles it', () => {
    const season = ordinary().vessel('Tote 3', { previousContents: 'unknown' });
    season.batch('T-14', undefined, { vesselId: id('Tote 3') }).filled('06-02 05:00');
    season.add('vessel.revised', '07-01 09:00', { vesselId: id('Tote 3'), previousContents: 'food' });
    expect(outcomeOf(season.season(), 'vessel-history', 'Tote 3').outcome).toBe('met');
  });
});
