import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  allDue,
  codeToSend,
  deadlinesOf,
  dueIn,
  evaluate,
  findingId,
  judgeBatch,
  judgeWithDue,
  tankDeadlines,
} from './index.ts';
import { gal, id, instant, lb, mgPerL, ordinary, type SeasonBuilder } from './testing/season.ts';
import { randomSeason } from './testing/random-season.ts';

describe('deadlines of the operation', () => {
  const brewing = () => {
    const season = ordinary();
    season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1').oxygen('06-02 07:00', 7);
    return season;
  };
  it('hold the next reading of a tank that brews: 12 h after the last one', () => {
    const all = deadlinesOf(brewing().season(), instant('06-02 08:00'));
    expect(all).toContainEqual(
      expect.objectContaining({
        ruleId: 'oxygen-checked',
        at: instant('06-02 19:00'),
        about: expect.objectContaining({ kind: 'batch', id: id('T-14') }),
      }),
    );
    expect(all.map(({ at }) => at)).toEqual(all.map(({ at }) => at).toSorted((a, b) => a - b));
  });
  it('hold, of a tank, what its own list holds, each with the finding that it becomes', () => {
    const [open, now] = [brewing().season(), instant('06-02 08:00')];
    const found = tankDeadlines(open, id('T-14'), now);
    expect(found.map(({ ruleId, at, what }) => ({ ruleId, at, what }))).toEqual(allDue(open, id('T-14'), now));
    const operation = [...open.records()][0]?.operationId ?? '';
    const reading = found.find(({ ruleId }) => ruleId === 'oxygen-checked');
    expect(reading?.findingId).toBe(findingId(operation, 'oxygen-checked', 'batch', id('T-14')));
  });
  it('hold first what is told beside the batch’s outcomes, as if each were asked for by itself', () => {
    const now = instant('06-02 08:00');
    expect(judgeWithDue(brewing().season(), id('T-14'), now).nextDue).toMatchObject({ ruleId: 'oxygen-checked' });
    fc.assert(
      fc.property(randomSeason, (season) => {
        const open = season.season();
        for (const batch of open.batches()) {
          const [outcomes, due] = [judgeBatch(open, batch.id, now), allDue(open, batch.id, now)];
          expect(judgeWithDue(open, batch.id, now)).toEqual({ outcomes, nextDue: due[0] ?? null });
        }
      }),
      { numRuns: 30 },
    );
  });
  it('hold the review of a closed batch, which is no deadline of the tank', () => {
    const season = brewing();
    season
      .batch('T-15', '06-03 05:00')
      .filled('06-03 05:00')
      .airOn('06-03 05:00')
      .fed('06-03 06:00', 'C-1')
      .applied('A-15', '06-04 06:00', '06-04 07:00')
      .closed('06-04 08:00');
    const [open, now] = [season.season(), instant('06-10 08:00')];
    expect(deadlinesOf(open, now)).toContainEqual(
      expect.objectContaining({ ruleId: 'record-complete', at: instant('07-04 08:00') }),
    );
    expect(judgeWithDue(open, id('T-15'), now).nextDue).toBeNull();
  });
  it('hold the laboratory’s result that a batch waits for, whether or not it was signed meanwhile', () => {
    const waiting = (signed: boolean) => {
      const season = ordinary();
      const batch = season.batch('T-14').filled('06-01 05:00').airOn('06-01 05:00');
      batch.fed('06-01 06:00', 'C-1').fed('06-01 06:00', 'M-1', { value: 1, unit: '[qt_us]' });
      season.add('batch.sampled', '06-02 07:00', { batchId: id('T-14'), sampleId: id('S-14'), takenFrom: 'tank' });
      batch.applied('A-1', '06-02 08:00', '06-02 09:00').closed('06-02 10:00', gal(0));
      if (signed)
        season.add('batch.reviewed', '06-03 09:00', {
          ...{ batchId: id('T-14'), throughSeq: 1000, meaning: 'reviewed', statement: 'I have read these records.' },
        });
      return deadlinesOf(season.season(), instant('06-04 09:00'));
    };
    const result = (signed: boolean) => waiting(signed).filter(({ ruleId }) => ruleId === 'additive-tested');
    expect(result(false)).toHaveLength(1);
    expect(result(true)).toEqual(result(false));
    expect(waiting(true).some(({ ruleId }) => ruleId === 'record-complete')).toBe(false);
  });
  it("hold the day by which the certifier's letter is to be answered", () => {
    const season = ordinary();
    season.add('certifier.wrote', '06-01 09:00', {
      reference: 'L-1',
      kind: 'request',
      text: 'Send the map.',
      dueOn: '2026-06-20',
    });
    expect(deadlinesOf(season.season(), instant('06-02 08:00'))).toEqual([
      expect.objectContaining({ ruleId: 'certifier-due', what: "answer the certifier's request L-1" }),
    ]);
  });
  describe('of what is no tank', () => {
    const owed = (season: SeasonBuilder, ruleId: string, now: string) =>
      deadlinesOf(season.season(), instant(now)).filter((each) => each.ruleId === ruleId);
    // In summer the operation is five hours behind UTC: the end of a day is the next one's midnight there.
    const endOf = (day: string) => instant(`${day} 00:00`) + 24 * 3_600_000;

    const metered = () => {
      const season = ordinary();
      const batch = season.batch('T-14').filled('06-02 05:00').airOn('06-02 05:00').fed('06-02 06:00', 'C-1');
      batch.oxygen('06-02 07:00', 7, { instrumentId: id('DO-1') });
      return season;
    };

    it('an optical probe in use is due at the end of the 30th day after its last check', () => {
      const season = metered();
      // The ordinary probe was checked on 20 May; read on 2 June.
      expect(owed(season, 'instrument-calibrated', '06-02 12:00')).toEqual([
        expect.objectContaining({ at: endOf('06-19'), what: 'calibrate or check the meter' }),
      ]);
      // It stays, late, until it is checked; then the next 30 days run.
      expect(owed(season, 'instrument-calibrated', '07-01 12:00')).toHaveLength(1);
      season.add('instrument.checked', '07-02 08:00', {
        instrumentId: id('DO-1'),
        standard: 'water-saturated air',
        reading: mgPerL(9),
        expected: mgPerL(9),
      });
      expect(owed(season, 'instrument-calibrated', '07-02 12:00').map(({ at }) => at)).toEqual([endOf('08-01')]);
    });
    it('a period that the operation set counts; a probe never read, one retired and a rule switched off ask for nothing', () => {
      const shorter = metered().adopted('06-01 00:00', [
        { ruleId: 'instrument-calibrated', parameters: { opticalDays: 10 } },
      ]);
      expect(owed(shorter, 'instrument-calibrated', '06-02 12:00').map(({ at }) => at)).toEqual([endOf('05-30')]);
      expect(owed(ordinary(), 'instrument-calibrated', '06-02 12:00')).toEqual([]);
      const retired = metered();
      retired.add('instrument.retired', '06-03 08:00', { instrumentId: id('DO-1'), reason: 'broken' });
      expect(owed(retired, 'instrument-calibrated', '06-04 12:00')).toEqual([]);
      const off = metered().adopted('06-01 00:00', [{ ruleId: 'instrument-calibrated', enabled: false }]);
      expect(owed(off, 'instrument-calibrated', '06-02 12:00')).toEqual([]);
    });
    it('a sprayer used for something else is to be cleaned by the end of that day, and is not once it was', () => {
      const used = (cleaned?: string) => {
        const season = ordinary();
        const equipmentId = id('Sprayer A');
        season.add('equipment.registered', '2024-01-01 08:00', { equipmentId, code: 'Sprayer A', kind: 'sprayer' });
        season.add('equipment.used', '06-01 08:00', { equipmentId, what: 'kaolin clay', prohibited: 'no' });
        if (cleaned !== undefined)
          season.add('equipment.cleaned', cleaned, { equipmentId, method: 'triple rinse', rinsed: true });
        return owed(season, 'equipment-clean', '06-02 12:00').map(({ at }) => at);
      };
      expect(used()).toEqual([endOf('06-01')]);
      // In the minute in which the use ended it may have been cleaned after it; before that it was not.
      expect(used('06-01 08:00')).toEqual([]);
      expect(used('06-01 07:59')).toEqual([endOf('06-01')]);
    });
    it('a membrane probe is checked on the day of use: no day lies ahead', () => {
      const season = ordinary().instrument('DO-2', { kind: 'membraneProbe' });
      season.add('instrument.checked', '06-02 05:00', {
        instrumentId: id('DO-2'),
        standard: 'water-saturated air',
        reading: mgPerL(9),
        expected: mgPerL(9),
      });
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .oxygen('06-02 07:00', 7, { instrumentId: id('DO-2') });
      expect(owed(season, 'instrument-calibrated', '06-02 12:00')).toEqual([]);
    });

    const sprayed = () => {
      const season = ordinary();
      season.add('equipment.registered', '04-01 08:00', {
        equipmentId: id('Sprayer A'),
        code: 'Sprayer A',
        kind: 'sprayer',
      });
      season.add('equipment.calibrated', '04-02 08:00', {
        equipmentId: id('Sprayer A'),
        flow: { value: 0.4, unit: '[gal_us]/min' },
      });
      season
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId: id('Sprayer A') });
      return season;
    };
    it('a sprayer is measured again after 365 days, and at once after its nozzles were changed', () => {
      const season = sprayed();
      expect(owed(season, 'equipment-calibrated', '06-10 12:00')).toEqual([
        expect.objectContaining({ at: endOf('2027-04-02'), what: 'measure the output of the equipment' }),
      ]);
      season.add('equipment.revised', '06-12 08:00', { equipmentId: id('Sprayer A'), code: 'Sprayer A2' });
      expect(owed(season, 'equipment-calibrated', '06-20 12:00').map(({ at }) => at)).toEqual([instant('06-12 08:00')]);
    });
    it('a sprayer that is retired, or was never measured, is not due again', () => {
      const season = sprayed();
      season.add('equipment.retired', '06-12 08:00', { equipmentId: id('Sprayer A'), reason: 'sold' });
      expect(owed(season, 'equipment-calibrated', '06-20 12:00')).toEqual([]);
      const never = ordinary();
      never.add('equipment.registered', '04-01 08:00', { equipmentId: id('S'), code: 'S', kind: 'sprayer' });
      never
        .batch('T-14')
        .filled('06-02 05:00')
        .fed('06-02 06:00', 'C-1')
        .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), { equipmentId: id('S') });
      expect(owed(never, 'equipment-calibrated', '06-20 12:00')).toEqual([]);
    });
    it('what applies nothing, and a sprayer that went nowhere yet, need no measuring', () => {
      const calibrated = (kind: 'sprayer' | 'blower', used: boolean) => {
        const season = ordinary();
        const equipmentId = id('E-1');
        season.add('equipment.registered', '04-01 08:00', { equipmentId, code: 'E-1', kind });
        season.add('equipment.calibrated', '04-02 08:00', { equipmentId, flow: { value: 0.4, unit: '[gal_us]/min' } });
        season
          .batch('T-14')
          .filled('06-02 05:00')
          .fed('06-02 06:00', 'C-1')
          .applied('A-1', '06-03 07:00', '06-03 08:00', 'North 4', gal(100), used ? { equipmentId } : {});
        return owed(season, 'equipment-calibrated', '06-10 12:00').length;
      };
      expect([calibrated('sprayer', true), calibrated('sprayer', false), calibrated('blower', true)]).toEqual([
        1, 0, 0,
      ]);
    });
    it('a sprayer used for something else is cleaned, by the end of that day, until it was', () => {
      const season = sprayed();
      season.add('equipment.used', '06-15 10:00', { equipmentId: id('Sprayer A'), what: 'kaolin', prohibited: 'no' });
      expect(owed(season, 'equipment-clean', '06-15 12:00')).toEqual([
        expect.objectContaining({ at: endOf('06-15'), what: 'clean the equipment before tea goes through it' }),
      ]);
      season.add('equipment.cleaned', '06-16 08:00', { equipmentId: id('Sprayer A'), method: 'rinse', rinsed: true });
      expect(owed(season, 'equipment-clean', '06-16 12:00')).toEqual([]);
    });
    it('whoever applies tea is trained again before 365 days are over, and the deadline does not name them', () => {
      const season = sprayed();
      season.add('person.registered', '04-01 08:00', { personId: id('Ines'), personal: { name: 'Ines Harrow' } });
      expect(owed(season, 'person-trained', '06-10 12:00')).toEqual([]);
      season.add('person.trained', '04-10 09:00', { personId: id('Ines'), topic: 'hygiene', by: 'Orla' });
      const [again] = owed(season, 'person-trained', '06-10 12:00');
      expect(again).toMatchObject({ at: endOf('2027-04-10'), what: 'train again by this day' });
      expect(JSON.stringify(again)).not.toContain('Harrow');
      // A person who applies nothing waits for nothing.
      season.add('person.registered', '04-01 08:00', { personId: id('Tobin'), personal: { name: 'Tobin Quay' } });
      season.add('person.trained', '04-10 09:00', { personId: id('Tobin'), topic: 'hygiene', by: 'Orla' });
      expect(owed(season, 'person-trained', '06-10 12:00')).toHaveLength(1);
    });
    it('an approval that ends while the lot is on the shelf, unless another follows it', () => {
      const season = ordinary()
        .material('kelp')
        .approved('kelp', '2026-01-01', '2026-06-30')
        .lot('K-1', 'kelp', lb(10));
      expect(owed(season, 'input-approved', '06-10 12:00')).toEqual([
        expect.objectContaining({ at: endOf('06-30'), what: 'renew the approval by this day' }),
      ]);
      expect(owed(season, 'input-approved', '07-01 12:00')).toEqual([]);
      season.batch('T-14').filled('06-12 05:00').fed('06-12 06:00', 'K-1', lb(10));
      expect(owed(season, 'input-approved', '06-13 12:00')).toEqual([]);
      const renewed = ordinary().material('kelp').lot('K-1', 'kelp', lb(10));
      renewed.approved('kelp', '2026-01-01', '2026-06-30').approved('kelp', '2026-07-01', '2026-12-31');
      expect(owed(renewed, 'input-approved', '06-10 12:00')).toEqual([]);
      // Renewed only from the day after next on, it leaves a day without.
      const gap = ordinary().material('kelp').lot('K-1', 'kelp', lb(10));
      gap.approved('kelp', '2026-01-01', '2026-06-30').approved('kelp', '2026-07-02', '2026-12-31');
      expect(owed(gap, 'input-approved', '06-10 12:00').map(({ at }) => at)).toEqual([endOf('06-30')]);
      // Of two that are in force, the one that ends later counts, whichever was written first.
      for (const [first, second] of [
        ['2026-06-15', '2026-06-30'],
        ['2026-06-30', '2026-06-15'],
      ] as const) {
        const two = ordinary().material('kelp').lot('K-1', 'kelp', lb(10));
        two.approved('kelp', '2026-01-01', first).approved('kelp', '2026-01-02', second);
        expect(owed(two, 'input-approved', '06-10 12:00').map(({ at }) => at)).toEqual([endOf('06-30')]);
      }
      const open = ordinary().material('kelp').lot('K-1', 'kelp', lb(10));
      open.approved('kelp', '2026-01-01', '2026-06-30').approved('kelp', '2026-02-01');
      expect(owed(open, 'input-approved', '06-10 12:00')).toEqual([]);
    });
    it('the date on a lot, as long as something of it is left', () => {
      const season = ordinary().lot('M-2', 'molasses', lb(10), { expiresOn: '2026-06-30' });
      expect(owed(season, 'input-in-date', '06-10 12:00')).toEqual([
        expect.objectContaining({ at: endOf('06-30'), what: 'use up the lot by this day' }),
      ]);
      expect(owed(season, 'input-in-date', '07-01 00:00')).toEqual([]);
      season.add('lot.disposed', '06-11 08:00', { lotId: id('M-2'), quantity: lb(10), reason: 'old' });
      expect(owed(season, 'input-in-date', '06-12 12:00')).toEqual([]);
    });
    it('are said in Spanish as well', () => {
      expect(dueIn('calibrate or check the meter', 'es')).toBe('calibre o revise el medidor');
      expect(dueIn('train again by this day', 'es')).toBe('capacite otra vez antes de este día');
    });
  });

  it('are those of outcomes, one each, and name the finding that they become when missed', () => {
    fc.assert(
      fc.property(randomSeason, fc.nat(480), (season, hours) => {
        const now = instant('2026-06-01 00:00') + hours * 3_600_000;
        const all = deadlinesOf(season.season(), now);
        const known = new Set(evaluate(season.season(), now).map(({ findingId }) => findingId));
        for (const { findingId } of all) expect(known).toContain(findingId);
        expect(new Set(all.map(({ findingId }) => findingId)).size).toBe(all.length);
      }),
      { numRuns: 30 },
    );
  });
});

describe('what a thing is called in a letter', () => {
  it('is the code on it, and never a person’s name', () => {
    const id = '01976f00-0000-7000-8000-0000000000b1';
    expect(codeToSend({ kind: 'batch', id, code: 'T-14' })).toBe('T-14');
    expect(codeToSend({ kind: 'person', id, code: 'Ines Halloran' })).toBe('01976f00');
  });
});
