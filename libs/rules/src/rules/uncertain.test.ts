import { describe, expect, it } from '@jest/globals';
import geographiclib from 'geographiclib-geodesic';
import { acres, gal, id, instant, lb, mgPerL, ordinary, type SeasonBuilder } from '../testing/season.ts';
import { drawOutcomes, outcomeOf } from '../testing/verdicts.ts';

// Times that are known only roughly, and things that nobody wrote down: what is not certain is not judged crisply.
const about = (minutes: number) => ({ plusMinusMinutes: minutes });

describe('a time that may lie on either side of midnight', () => {
  it('a membrane probe, checked on 1 June and read at about midnight, was perhaps read the day after', () => {
    const read = (minutes: number) => {
      const season = ordinary().instrument('P-1', { kind: 'membraneProbe' });
      season.add('instrument.calibrated', '06-01 08:00', { instrumentId: id('P-1'), standard: 'air' });
      season
        .batch('T-14')
        .filled('06-01 05:00')
        .fed('06-01 06:00', 'C-1')
        .oxygen('06-01 23:50', 7, { instrumentId: id('P-1') }, about(minutes));
      return outcomeOf(season.season(), 'instrument-calibrated', 'P-1');
    };
    expect(read(9).outcome).toBe('met');
    expect(read(15)).toMatchObject({ outcome: 'unknown' });
    expect(read(15).message).toMatch(/The day of the reading is not sure\.$/);
  });

  const used = (expiresOn: string, minutes: number, at = '06-01 23:50') => {
    const season = ordinary().lot('M-2', 'molasses', lb(10), { expiresOn });
    season.batch('T-14').filled('06-01 05:00').fed(at, 'M-2', lb(1), about(minutes));
    return outcomeOf(season.season(), 'input-in-date', 'M-2');
  };
  it('a feed whose date is that day was perhaps used the day after; its date itself still counts', () => {
    expect(used('2026-06-01', 9).outcome).toBe('met');
    expect(used('2026-06-01', 15).outcome).toBe('unknown');
    expect(used('2026-05-31', 15).outcome).toBe('broken');
    expect(used('2026-06-02', 15).outcome).toBe('met');
  });

  it('an approval that ends that day was perhaps over', () => {
    const approved = (until: string, minutes: number) => {
      const season = ordinary().material('kelp').approved('kelp', '2026-01-01', until).lot('K-1', 'kelp', lb(10));
      season.batch('T-14').filled('06-01 05:00').fed('06-01 23:50', 'K-1', lb(1), about(minutes));
      return outcomeOf(season.season(), 'input-approved', 'K-1').outcome;
    };
    expect([approved('2026-06-01', 9), approved('2026-06-01', 15), approved('2026-05-31', 15)]).toEqual([
      'met',
      'unknown',
      'broken',
    ]);
  });
});

describe('an order of things that is not certain', () => {
  it('a lot released at about the time of its use: whether it was held then cannot be told', () => {
    const released = (at: string, minutes: number) => {
      const season = ordinary();
      season.add('lot.held', '05-01 08:00', { lotId: id('M-1'), reason: 'seal broken' });
      season.add('lot.released', at, { lotId: id('M-1'), reason: 'seen by the supplier' }, about(minutes));
      season.batch('T-14').filled('06-01 05:00').fed('06-01 08:00', 'M-1');
      return outcomeOf(season.season(), 'input-not-held', 'M-1').outcome;
    };
    expect(released('06-01 07:00', 30)).toBe('met');
    expect(released('06-01 07:45', 30)).toBe('unknown');
    expect(released('06-01 09:00', 30)).toBe('broken');
  });

  it('a sprayer cleaned at about the time of the application', () => {
    const cleaned = (at: string, minutes: number) => {
      const season = ordinary();
      season.add('equipment.registered', '04-01 08:00', { equipmentId: id('S'), code: 'S', kind: 'sprayer' });
      season.add('equipment.used', '06-01 08:00', { equipmentId: id('S'), what: 'kaolin', prohibited: 'no' });
      season.add('equipment.cleaned', at, { equipmentId: id('S'), method: 'rinse', rinsed: true }, about(minutes));
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId: id('S') });
      return outcomeOf(season.season(), 'equipment-clean', 'A-1');
    };
    expect(cleaned('06-03 06:00', 30).outcome).toBe('met');
    expect(cleaned('06-03 06:45', 30)).toMatchObject({ outcome: 'unknown' });
    expect(cleaned('06-03 08:30', 30).outcome).toBe('broken');
  });

  it.each<[string, number, boolean, string, string]>([
    ['06:00', 30, false, 'broken', 'surely before the tea'],
    ['06:45', 30, false, 'unknown', 'perhaps only after the tea had begun'],
    ['07:15', 30, false, 'unknown', 'perhaps before the tea all the same'],
    ['07:45', 30, false, 'met', 'surely after the tea had begun'],
    ['07:15', 30, true, 'broken', 'not cleaned of what it was surely used for, whichever came first today'],
  ])(
    'a sprayer used for clay at about %s (±%s min; days before as well: %s), tea through it from 07:00: %s, %s',
    (when, minutes, before, verdict) => {
      const season = ordinary();
      const use = { equipmentId: id('S'), what: 'kaolin', prohibited: 'no' } as const;
      season.add('equipment.registered', '04-01 08:00', { equipmentId: id('S'), code: 'S', kind: 'sprayer' });
      if (before) season.add('equipment.used', '06-01 08:00', use);
      season.add('equipment.used', `06-03 ${when}`, use, about(minutes));
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId: id('S') });
      expect(outcomeOf(season.season(), 'equipment-clean', 'A-1').outcome).toBe(verdict);
    },
  );

  it('the certifier, told at about 24 h: neither at once nor too late for certain', () => {
    const told = (minutes: number) => {
      const season = ordinary();
      season.add('field.exposed', '05-01 08:00', { fieldId: id('North 4'), substance: 'herbicide', how: 'drift' });
      season.add('certifier.notified', '05-02 07:50', { about: [id('North 4')], how: 'telephone' }, about(minutes));
      return outcomeOf(season.season(), 'notify-certifier', 'North 4').outcome;
    };
    expect([told(10), told(11)]).toEqual(['met', 'unknown']);
  });
});

describe('what nobody wrote down', () => {
  it('a tea without air: an extract and bought tea have none here, of aerated tea it cannot be told', () => {
    const held = (kind: 'aeratedTea' | 'extract') => {
      const season = ordinary();
      season
        .batch('T-14', '06-01 04:00', { kind })
        .filled('06-01 05:00')
        .fed('06-01 06:00', 'C-1')
        .applied('A-1', '06-02 07:00', '06-02 08:00');
      return drawOutcomes(season.season(), 'hold-maximum', 'T-14')[0]?.outcome;
    };
    expect([held('aeratedTea'), held('extract')]).toEqual(['unknown', 'notApplicable']);
    const bought = ordinary();
    bought.add('tea.received', '06-01 05:00', {
      batchId: id('B-1'),
      code: 'B-1',
      volume: gal(100),
      from: { name: 'Alder Brewing' },
    });
    bought.add('application.made', '06-01 09:00', {
      applicationId: id('A-2'),
      targets: [{ fieldId: id('North 4'), area: acres(1) }],
      draws: [{ batchId: id('B-1'), volume: gal(100) }],
      startedAt: '2026-06-01T08:00:00-05:00',
      finishedAt: '2026-06-01T09:00:00-05:00',
      method: 'soilDrench',
      applicator: id('Ines'),
    });
    expect(drawOutcomes(bought.season(), 'hold-maximum', 'B-1')[0]?.outcome).toBe('notApplicable');
  });

  it('a temperature at which no equation tells what water holds is judged, without its room for oxygen', () => {
    const season = ordinary();
    const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
    batch.checked('06-02 12:00', { temperature: { value: 46, unit: 'Cel' } });
    const outcome = outcomeOf(season.season(), 'temperature-range', 'T-14');
    expect(outcome).toMatchObject({ outcome: 'broken', figures: [{ name: 'temperatureF' }] });
    expect(outcome.message).toMatch(/the range is 55 to 80 °F\.$/);
  });

  it('how much room the water leaves for oxygen: less than the limit asks for is said so', () => {
    const room = (minimumMgPerL: number) => {
      const season = ordinary().adopted('05-01 00:00', [{ ruleId: 'oxygen-minimum', parameters: { minimumMgPerL } }]);
      const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
      batch.checked('06-02 12:00', { temperature: { value: 20, unit: 'Cel' } });
      return outcomeOf(season.season(), 'temperature-range', 'T-14').message;
    };
    // At 20 °C and sea level water holds 9.09 mg/L (EN 25814, as printed in a meter manual).
    expect(room(6)).toMatch(/at most 9\.09\d? mg\/L of oxygen, 3\.09\d? more than the 6 of your limit/);
    expect(room(10)).toMatch(/0\.9\d* less than the 10 of your limit/);
  });

  it('water thinned in: disinfectant nobody knows, none at all, and a volume of nothing', () => {
    const thinned = (disinfectant: 'unknown' | 'none', volume = 50, edible: 'notForFood' | 'leaf' = 'leaf') => {
      const season = ordinary()
        .source('D1', { kind: disinfectant === 'none' ? 'surface' : 'municipal', disinfectant })
        .planting('crop', 'North 4', { ediblePart: edible });
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), {
          targets: [{ fieldId: id('North 4'), plantingId: id('crop') }],
          ...{ dilutionVolume: gal(volume), dilutionSourceId: id('D1') },
        });
      return outcomeOf(season.season(), 'dilution-water', 'A-1').outcome;
    };
    expect(thinned('unknown')).toBe('unknown');
    expect(thinned('unknown', 0)).toBe('notApplicable');
    expect(thinned('none')).toBe('broken');
    // Onto what nobody eats, surface water is no matter of food.
    expect(thinned('none', 50, 'notForFood')).toBe('met');
  });

  it('top-up water: a reading between two pads, disinfection nobody knows, an old reading', () => {
    const toppedUp = (read: (season: SeasonBuilder) => unknown, disinfectant: 'chlorine' | 'unknown' = 'chlorine') => {
      const season = ordinary().source('Town', { kind: 'municipal', disinfectant });
      const batch = season.batch('T-14').filled('06-02 05:00', gal(190)).airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
      read(season);
      batch.filled('06-02 12:00', gal(60), 'Town');
      return outcomeOf(season.season(), 'topup-water', 'T-14').outcome;
    };
    const reading = (when: string, free: object) => (season: SeasonBuilder) =>
      season.add('batch.chlorineMeasured', when, {
        batchId: id('T-14'),
        method: 'strip',
        free: { ...mgPerL(0), ...free },
      });
    expect(toppedUp(reading('06-02 11:00', { value: 0, qualifier: 'between', high: 0.5 }))).toBe('unknown');
    expect(toppedUp(reading('06-02 11:00', { value: 0.5, qualifier: '<' }))).toBe('unknown');
    expect(toppedUp(reading('06-02 11:00', { value: 0.1, qualifier: 'notDetected' }))).toBe('met');
    // From a day before the fill to an hour after it a reading can speak of this water.
    expect(toppedUp(reading('06-01 12:00', { value: 0.05 }))).toBe('met');
    expect(toppedUp(reading('06-01 11:59', { value: 0.05 }))).toBe('broken');
    expect(toppedUp(reading('06-02 13:00', { value: 0.05 }))).toBe('met');
    expect(toppedUp(reading('06-02 13:01', { value: 0.05 }))).toBe('broken');
    expect(toppedUp(() => undefined, 'unknown')).toBe('unknown');
  });

  it('an area: of a field that has none, in no unit of area, from a boundary drawn on the map', () => {
    const square = {
      type: 'Polygon' as const,
      coordinates: [
        [
          [-74.2, 42.1],
          [-74.198, 42.1],
          [-74.198, 42.1016],
          [-74.2, 42.1016],
          [-74.2, 42.1],
        ],
      ],
    };
    const treated = (area: number, more: object) => {
      const season = ordinary();
      season.add('field.registered', '04-01 08:00', {
        fieldId: id('W'),
        code: 'W',
        kind: 'field',
        landStatus: 'organic',
        ...more,
      });
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'W', gal(100), {
          targets: [{ fieldId: id('W'), area: { value: area, unit: 'm2' } }],
        });
      return outcomeOf(season.season(), 'area-possible', 'A-1').outcome;
    };
    expect(treated(100, {})).toBe('unknown');
    // 0.002° of longitude by 0.0016° of latitude at 42.1° N: about 165.4 m by 177.7 m on WGS 84, 29,390 m² (worked by
    // hand from the lengths of a degree, 82,720 m and 111,076 m); 2 % of it are let stand.
    expect(treated(29_300, { boundary: square })).toBe('met');
    expect(treated(29_900, { boundary: square })).toBe('met');
    expect(treated(30_100, { boundary: square })).toBe('broken');
    // To the hundredth of a per cent, by geographiclib's area of the same corners.
    const polygon = geographiclib.Geodesic.WGS84.Polygon(false);
    for (const [longitude = 0, latitude = 0] of square.coordinates[0]?.slice(0, -1) ?? [])
      polygon.AddPoint(latitude, longitude);
    const whole = polygon.Compute(false, true).area ?? 0;
    expect(treated(Math.round(whole * 1.0199), { boundary: square })).toBe('met');
    expect(treated(Math.round(whole * 1.0201), { boundary: square })).toBe('broken');
  });

  it('a letter of the certifier that is answered in the same minute is answered; one answered before it was sent is not', () => {
    const answered = (when: string) => {
      const season = ordinary();
      const letter = season.add('certifier.wrote', '06-01 09:00', {
        ...{ reference: 'L-1', kind: 'request', text: 'Send the map.', dueOn: '2026-06-20' },
      });
      season.add('certifier.notified', when, { about: [letter], how: 'e-mail' });
      return outcomeOf(season.season(), 'certifier-due', 'operation').outcome;
    };
    expect(answered('06-01 09:00')).toBe('met');
    expect(answered('06-01 08:59')).toBe('broken');
    expect(answered('06-20 23:59')).toBe('met');
    expect(answered('06-21 00:00')).toBe('broken');
  });

  it('a check that cannot tell how far a meter was off says nothing of it', () => {
    const season = ordinary().instrument('P-1');
    const check = (expected: number) =>
      season.add('instrument.checked', '06-10 08:00', {
        ...{ instrumentId: id('P-1'), standard: 'zero', reading: mgPerL(0.3), expected: mgPerL(expected) },
      });
    check(0);
    expect(outcomeOf(season.season(), 'instrument-drift', 'P-1').outcome).toBe('notApplicable');
    check(0.2);
    // 50 % off, and nothing was read with it before.
    expect(outcomeOf(season.season(), 'instrument-drift', 'P-1')).toMatchObject({ outcome: 'met' });
  });
});

describe('a deadline that has just passed', () => {
  it("the certifier's day ends at midnight where the operation is", () => {
    const season = ordinary();
    season.add('certifier.wrote', '06-01 09:00', {
      ...{ reference: 'L-1', kind: 'request', text: 'Send the map.', dueOn: '2026-06-20' },
    });
    const at = (now: string) => outcomeOf(season.season(), 'certifier-due', 'operation', { now: instant(now) }).outcome;
    expect([at('06-20 23:59'), at('06-21 00:00')]).toEqual(['due', 'broken']);
  });
});
