import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { allDue, deadlinesOf, evaluate, findingId, nextDue, tankDeadlines } from './index.ts';
import { id, instant, ordinary } from './testing/season.ts';
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
    expect(nextDue(open, id('T-15'), now)).toBeNull();
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
