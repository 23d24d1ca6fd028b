import { openSeason, parseDraft } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  checkDrafts,
  deadlinesOf,
  evaluate,
  findings,
  judgeBatch,
  judgeSubject,
  judgeThing,
  judgeWithDue,
  ruleById,
  type Outcome,
} from './index.ts';
import { id, instant, operation, ordinary } from './testing/season.ts';
import { randomSeason } from './testing/random-season.ts';

const now = instant('2026-06-20 12:00');
const undecided = new Set(['due', 'notApplicable', 'unknown']);

it('of a log in which nothing is recorded nothing is said, asked or due', () => {
  const empty = openSeason();
  expect([evaluate(empty, now), findings(empty, now), deadlinesOf(empty, now)]).toEqual([[], [], []]);
});

describe('laws of every rule', () => {
  it('by when, and what is to be done, stand with what is due and with nothing else', () => {
    fc.assert(
      fc.property(randomSeason, fc.nat(480), (season, hours) => {
        const then = instant('2026-06-01 00:00') + hours * 3_600_000;
        for (const { outcome, dueAt, due } of evaluate(season.season(), then))
          expect([dueAt !== undefined, due !== undefined]).toEqual([outcome === 'due', outcome === 'due']);
      }),
      { numRuns: 60 },
    );
  });

  it('the answer never depends on the order in which records arrived', () => {
    fc.assert(
      fc.property(randomSeason, fc.infiniteStream(fc.nat()), (season, numbers) => {
        const shuffled = season.records
          .map((record) => ({ record, place: numbers.next().value }))
          .sort((a, b) => a.place - b.place)
          .map(({ record }) => record);
        const byId = (all: ReturnType<typeof evaluate>) =>
          [...all].sort((a, b) => (a.findingId < b.findingId ? -1 : 1));
        expect(byId(evaluate(openSeason(shuffled), now))).toEqual(byId(evaluate(season.season(), now)));
      }),
      { numRuns: 60 },
    );
  });

  it('records added one by one give what all at once give', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        const growing = openSeason();
        for (const record of season.records) {
          growing.add([record]);
          evaluate(growing, now);
        }
        const byId = (all: ReturnType<typeof evaluate>) =>
          [...all].sort((a, b) => (a.findingId < b.findingId ? -1 : 1));
        expect(byId(evaluate(growing, now))).toEqual(byId(evaluate(season.season(), now)));
      }),
      { numRuns: 15 },
    );
  });

  it('a decided outcome does not change with the clock', () => {
    fc.assert(
      fc.property(randomSeason, fc.nat(480), fc.nat(480), (season, a, b) => {
        const open = season.season();
        const start = instant('2026-06-01 00:00');
        const [earlier, later] = [Math.min(a, b), Math.max(a, b)].map((hours) => start + hours * 3_600_000);
        if (earlier === undefined || later === undefined) return;
        const before = new Map(evaluate(open, earlier).map((outcome) => [outcome.findingId, outcome]));
        for (const outcome of evaluate(open, later)) {
          const was = before.get(outcome.findingId);
          if (was === undefined || undecided.has(was.outcome)) continue;
          expect([outcome.ruleId, outcome.about.code, outcome.outcome]).toEqual([
            was.ruleId,
            was.about.code,
            was.outcome,
          ]);
        }
      }),
      { numRuns: 80 },
    );
  });

  it('what was judged before says at every later time what judging anew says', () => {
    fc.assert(
      fc.property(randomSeason, fc.array(fc.nat(4000), { minLength: 2, maxLength: 4 }), (season, hours) => {
        const open = season.season();
        for (const hour of hours) {
          const then = instant('2026-05-20 00:00') + hour * 3_600_000;
          expect(evaluate(open, then)).toEqual(evaluate(season.season(), then));
        }
      }),
      { numRuns: 40 },
    );
  });

  it('a check leaves the season as it was, and says what the records say once they are recorded', () => {
    fc.assert(
      fc.property(randomSeason, fc.integer({ min: 1, max: 3 }), (season, n) => {
        const [recorded, drafts] = [season.records.slice(0, -n), season.records.slice(-n)];
        const open = openSeason(recorded);
        const before = evaluate(open, now);
        const sent = drafts.flatMap(({ id: recordId, type, version, occurredAt, data }) => {
          const parsed = parseDraft(
            { id: recordId, type, version, occurredAt, data },
            { now: instant('2026-12-31 00:00') },
          );
          return parsed.ok ? [parsed.draft] : [];
        });
        const told = checkDrafts(open, sent, now);
        expect(evaluate(open, now)).toEqual(before);
        // As the service would record them now: on the spot of the clock, by nobody in particular.
        const then = openSeason([
          ...recorded,
          ...sent.map((draft, i) => ({
            ...draft,
            operationId: recorded[0]?.operationId ?? operation,
            seq: open.size + i,
            recordedAt: new Date(now).toISOString(),
            recordedBy: '00000000-0000-0000-0000-000000000000',
          })),
        ]);
        const after = new Map(evaluate(then, now).map((outcome) => [outcome.findingId, outcome]));
        for (const outcome of told) {
          const is = after.get(outcome.findingId);
          expect([outcome.ruleId, outcome.outcome, outcome.message]).toEqual([is?.ruleId, is?.outcome, is?.message]);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('no outcome says safe, compliant or pass, whatever happened', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        for (const { message, title, due } of evaluate(season.season(), now)) {
          // Sentences put together of parts have single spaces, and none before a stop.
          expect(`${message} ${due ?? ''}`.trim()).not.toMatch(/ {2}|\s[.,;:]/);
          expect(`${message} ${title} ${due ?? ''}`).not.toMatch(
            /\b(safe|safely|safety|compliant|compliance|pass|passes|passed)\b/i,
          );
        }
      }),
      { numRuns: 60 },
    );
  });

  it('a batch read on its own says what the whole evaluation says of it, but for its own uses of what batches share', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        const open = season.season();
        const all = new Map(evaluate(open, now).map((outcome) => [outcome.findingId, outcome]));
        for (const outcome of judgeBatch(open, id('T-1'), now))
          if (!ruleById(outcome.ruleId)?.perBatch?.includes(outcome.about.kind))
            expect(outcome).toEqual(all.get(outcome.findingId));
      }),
      { numRuns: 30 },
    );
  });

  it('one rule asked of one subject says what the whole evaluation says of it', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        const open = season.season();
        for (const outcome of evaluate(open, now))
          expect(judgeSubject(open, outcome.ruleId, outcome.about, now)).toEqual(outcome);
      }),
      { numRuns: 10 },
    );
  });

  it('of a subject that nobody recorded, and by a rule that there is none of, nothing is said', () => {
    const open = ordinary().season();
    expect(judgeSubject(open, 'input-in-date', { kind: 'lot', id: id('C-1') }, now)).not.toBeNull();
    expect(judgeSubject(open, 'input-in-date', { kind: 'lot', id: id('C-99') }, now)).toBeNull();
    expect(judgeSubject(open, 'no-such-rule', { kind: 'lot', id: id('C-1') }, now)).toBeNull();
    expect(judgeThing(open, { kind: 'lot', id: id('C-99') }, now)).toEqual([]);
  });

  it('a lot or a meter that batches share stands as with the batch where it was used worst', () => {
    // Something broken stays; while anything is due, nothing milder is settled.
    const decides = ['notApplicable', 'met', 'caution', 'unknown', 'due', 'broken'];
    fc.assert(
      fc.property(randomSeason, (season) => {
        const open = season.season();
        const beside = open.batches().flatMap((batch) => judgeBatch(open, batch.id, now));
        for (const whole of evaluate(open, now)) {
          const { kind } = whole.about;
          if (!['lot', 'instrument'].includes(kind) || !ruleById(whole.ruleId)?.perBatch?.includes(kind)) continue;
          const each = beside.filter(({ findingId }) => findingId === whole.findingId).map(({ outcome }) => outcome);
          // Nothing of it in any batch: the whole says that it was not used.
          if (each.length === 0) continue;
          const worst = Math.max(...each.map((outcome) => decides.indexOf(outcome)));
          expect([whole.ruleId, whole.outcome]).toEqual([whole.ruleId, decides[worst]]);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('one outcome per rule and subject', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        const ids = evaluate(season.season(), now).map(({ findingId }) => findingId);
        expect(new Set(ids).size).toBe(ids.length);
      }),
      { numRuns: 30 },
    );
  });

  it('findings, what is next due and checks never fail, whatever is missing', () => {
    fc.assert(
      fc.property(randomSeason, (season) => {
        const open = season.season();
        findings(open, now);
        judgeWithDue(open, id('T-1'), now);
        const last = season.records.at(-1);
        if (last !== undefined) {
          const { id: recordId, type, version, occurredAt, data } = last;
          const sent = parseDraft(
            { id: recordId, type, version, occurredAt, data },
            { now: instant('2026-12-31 00:00') },
          );
          // A record that is there already changes nothing.
          if (sent.ok) expect(checkDrafts(open, [sent.draft], now)).toEqual([]);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('a record changes only outcomes of rules that say they look at its type', () => {
    const everywhere = new Set(['ruleBook.adopted', 'operation.described', 'operation.revised']);
    fc.assert(
      fc.property(randomSeason, fc.nat(), (season, n) => {
        const { records } = season;
        const one = records[n % records.length];
        if (one === undefined || everywhere.has(one.type)) return;
        const corrected = one.type === 'record.amended' || one.type === 'record.struck' ? one.data.type : one.type;
        const before = new Map(
          evaluate(openSeason(records.filter((record) => record !== one)), now).map((each) => [each.findingId, each]),
        );
        for (const after of evaluate(season.season(), now)) {
          const was = before.get(after.findingId);
          if (was === undefined || (was.outcome === after.outcome && sameFigures(was, after))) continue;
          expect([after.ruleId, ruleById(after.ruleId)?.looksAt.records]).toEqual([
            after.ruleId,
            expect.arrayContaining([corrected]),
          ]);
        }
      }),
      { numRuns: 150 },
    );
  });
});

const sameFigures = (a: Outcome, b: Outcome): boolean => JSON.stringify(a.figures) === JSON.stringify(b.figures);
