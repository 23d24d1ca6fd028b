import { openSeason, recordId, type LogRecord } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { catalogue, evaluate, type Outcome } from './index.ts';
import { id, instant } from './testing/season.ts';
import { randomSeason } from './testing/random-season.ts';

const now = instant('2026-06-20 12:00');

/** What a rule says of each subject; not which records it says it of. */
const said = (outcomes: readonly Outcome[], ...not: readonly string[]) =>
  outcomes
    .filter(({ ruleId }) => !not.includes(ruleId))
    .map(({ findingId, ruleId, outcome, message }) => [findingId, ruleId, outcome, message] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1));

/** Records of a tank that people mistype: the time and, for readings, the value. */
const mistaken = /^batch\.(oxygenMeasured|checked|filled|airStarted|airStopped|ingredientAdded|disposed)$/;

describe('laws of corrections, for every rule', () => {
  it('written wrongly and amended is judged as if it had been written right at once, whichever arrives first', () => {
    fc.assert(
      fc.property(randomSeason, fc.nat(), fc.integer({ min: -90, max: 90 }), (season, pick, minutes) => {
        const candidates = season.records.filter(
          ({ type, occurredAt }) => mistaken.test(type) && occurredAt > '2026-06',
        );
        const right = candidates[pick % Math.max(1, candidates.length)];
        // A record that the season itself amends or strikes already has its own story.
        const corrected = new Set(season.records.map(({ data }) => ('recordId' in data ? data.recordId : '')));
        if (right === undefined || corrected.has(right.id)) return;
        const wrong: LogRecord = {
          ...right,
          occurredAt: new Date(Date.parse(right.occurredAt) + minutes * 60_000).toISOString(),
        };
        season.amended(right.id, right.type, '2026-06-18 09:00', right.data, {});
        const [amendment] = season.records.splice(-1);
        if (amendment?.type !== 'record.amended') throw new Error('no amendment was made');
        const whole: LogRecord = { ...amendment, data: { ...amendment.data, occurredAt: right.occurredAt } };
        const others = season.records.map((record) => (record.id === right.id ? wrong : record));
        // That a record has a history is for the rules on records to say.
        const of = (records: readonly LogRecord[]) => said(evaluate(openSeason(records), now), 'record-consistent');
        const asRight = of(season.records);
        expect(of([...others, whole])).toEqual(asRight);
        expect(of([whole, ...others])).toEqual(asRight);
      }),
      { numRuns: 60 },
    );
  });

  it('what was struck is judged as if it had never been written', () => {
    fc.assert(
      fc.property(randomSeason, fc.nat(), (season, pick) => {
        const candidates = season.records.filter(
          ({ type, occurredAt }) => mistaken.test(type) && occurredAt > '2026-06',
        );
        const record = candidates[pick % Math.max(1, candidates.length)];
        if (record === undefined) return;
        const without = said(evaluate(season.season(), now), 'record-consistent');
        const twice: LogRecord = {
          ...record,
          id: recordId.parse(id(`again ${record.id}`)),
          seq: season.records.length,
        };
        season.records.push(twice);
        season.struck(twice.id, twice.type, '2026-06-18 09:00');
        expect(said(evaluate(season.season(), now), 'record-consistent')).toEqual(without);
      }),
      { numRuns: 60 },
    );
  });
});

describe('laws of the rule book, for every rule', () => {
  const withParameters = catalogue.filter(({ parameters }) => parameters.size > 0);
  const halved = withParameters.map((rule) => ({
    ruleId: rule.id,
    parameters: Object.fromEntries([...rule.parameters].map(([name, { byDefault }]) => [name, byDefault / 2])),
  }));
  const asBuiltIn = withParameters.map((rule) => ({
    ruleId: rule.id,
    parameters: Object.fromEntries([...rule.parameters].map(([name, { byDefault }]) => [name, byDefault])),
  }));

  it('limits adopted for what lies ahead change nothing that lies behind', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        const before = said(evaluate(season.season(), now), 'rule-book-adopted');
        season.adopted('2026-06-19 08:00', halved);
        expect(said(evaluate(season.season(), now), 'rule-book-adopted')).toEqual(before);
      }),
      { numRuns: 40 },
    );
  });

  it('the built-in limits adopted as they are change nothing', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        if (season.records.some(({ type }) => type === 'ruleBook.adopted')) return;
        const before = said(evaluate(season.season(), now), 'rule-book-adopted');
        season.adopted('2026-01-01 00:00', asBuiltIn);
        expect(said(evaluate(season.season(), now), 'rule-book-adopted')).toEqual(before);
      }),
      { numRuns: 40 },
    );
  });

  it('a rule that is switched off says so of every subject, and owes nothing', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        season.adopted(
          '2026-01-01 00:00',
          catalogue.map(({ id: ruleId }) => ({ ruleId, enabled: false })),
        );
        // Limits that the season adopts later do not switch on.
        for (const { outcome, message, figures, due } of evaluate(season.season(), now)) {
          expect({ outcome, message, figures, due }).toEqual({
            outcome: 'notApplicable',
            message: 'Switched off in the rule book in force.',
            figures: [],
            due: undefined,
          });
        }
      }),
      { numRuns: 20 },
    );
  });
});
