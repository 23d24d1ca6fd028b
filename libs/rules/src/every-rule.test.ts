import { openSeason, type LogRecord } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { catalogue } from './catalogue.ts';
import { evaluate } from './engine/evaluate.ts';
import { deadlinesOf } from './next-due.ts';
import { at, id, instant, type SeasonBuilder } from './testing/season.ts';
import { workedCases, type Said, type WorkedCase } from './testing/worked/index.ts';

/*
 * The kinds of test that every rule needs, made for each worked case: both sides of the limit, what nobody wrote down,
 * times that are not sure, amended data, a record that arrives late, the rule book changed in between, and own figures.
 */

function verdict(given: WorkedCase, records: readonly LogRecord[]): Said {
  const now = instant(given.now ?? '2026-12-31 00:00');
  const found = evaluate(openSeason(records), now).find(
    ({ ruleId, about }) =>
      ruleId === given.ruleId &&
      (given.kind === undefined || about.kind === given.kind) &&
      (about.kind === 'operation' || about.id === id(given.about)),
  );
  return found?.outcome ?? 'nothing';
}
const said = (given: WorkedCase, season: SeasonBuilder): Said => verdict(given, season.records);

/** Where two seasons differ: the records that decide. They are written alike, one after the other. */
function deciding(a: SeasonBuilder, b: SeasonBuilder): number[] {
  expect(a.records.map(({ type }) => type)).toEqual(b.records.map(({ type }) => type));
  return a.records.flatMap((record, i) => {
    const other = b.records[i];
    const same = record.occurredAt === other?.occurredAt && JSON.stringify(record.data) === JSON.stringify(other.data);
    return same ? [] : [i];
  });
}

/** The season with what decides corrected to what the other one says. */
function amended(season: SeasonBuilder, other: SeasonBuilder): SeasonBuilder {
  for (const i of deciding(season, other)) {
    const [wrong, right] = [season.records[i], other.records[i]];
    if (wrong === undefined || right === undefined) throw new Error('no such record');
    season.add('record.amended', '2026-12-01 09:00', {
      ...{ recordId: wrong.id, type: wrong.type, version: 1, data: { ...right.data }, reason: 'written wrongly' },
      ...(wrong.occurredAt === right.occurredAt ? {} : { occurredAt: right.occurredAt }),
    });
  }
  return season;
}

/** The same records, those that decide last to arrive: on a telephone without reception until December. */
function arrivedLate(season: SeasonBuilder, late: readonly number[]): LogRecord[] {
  const last = season.records.filter((_, i) => late.includes(i));
  const first = season.records.filter((_, i) => !late.includes(i));
  return [
    ...first.map((record, seq) => ({ ...record, seq })),
    ...last.map((record, i) => ({ ...record, seq: first.length + i, recordedAt: at('2026-12-02 09:00') })),
  ];
}

/** An adoption that switches the rule off from an instant on. */
function switchedOff(given: WorkedCase, season: SeasonBuilder, from: number): SeasonBuilder {
  season.add('ruleBook.adopted', '2024-01-01 09:00', {
    ...{ effectiveFrom: new Date(from).toISOString(), reason: 'not for us', approvedBy: id('Ines') },
    entries: [{ ruleId: given.ruleId, enabled: false }],
  });
  return season;
}

it('every rule of the catalogue has a worked case, and own figures are tried of each that has any', () => {
  for (const { id: ruleId, parameters } of catalogue) {
    const cases = workedCases.filter((each) => each.ruleId === ruleId);
    expect([ruleId, cases.length > 0]).toEqual([ruleId, true]);
    if (parameters.size > 0)
      expect([ruleId, cases.some(({ stricter }) => stricter !== undefined)]).toEqual([ruleId, true]);
  }
  const known = new Set(catalogue.map((rule) => rule.id));
  expect(workedCases.filter(({ ruleId }) => !known.has(ruleId))).toEqual([]);
});

describe.each(workedCases.map((each) => [each.ruleId, each.words, each] as const))('%s: %s', (_id, _words, given) => {
  const write = (side: 'within' | 'past') => given.write(side, {});
  const late = () => deciding(write('within'), write('past'));

  it('both sides of the limit', () => {
    expect({ within: said(given, write('within')), past: said(given, write('past')) }).toEqual(given.verdicts);
    expect(late().length).toBeGreaterThan(0);
  });

  it(`nobody wrote down ${given.unknown.words}`, () => {
    expect(said(given, given.unknown.write())).toBe(given.unknown.verdict);
  });

  const { unsure } = given;
  if (typeof unsure !== 'string')
    it(`a time that is sure to ${String(unsure.minutes)} min only`, () => {
      expect(said(given, given.write('within', { plusMinusMinutes: unsure.minutes }))).toBe(unsure.verdict);
    });

  if (given.neverAmended === undefined)
    it('written wrongly and amended: what is right now counts, either way', () => {
      expect(said(given, amended(write('past'), write('within')))).toBe(given.verdicts.within);
      expect(said(given, amended(write('within'), write('past')))).toBe(given.verdicts.past);
    });

  it('what decides arrives last of all: the same is said', () => {
    for (const side of ['within', 'past'] as const)
      expect([side, verdict(given, arrivedLate(write(side), late()))]).toEqual([side, given.verdicts[side]]);
  });

  it('the rule book changed in between: off from the instant that counts, still on where that is a minute later', () => {
    const from = instant(given.chosenAt);
    expect(said(given, switchedOff(given, write('past'), from))).toBe(given.whileOff ?? 'notApplicable');
    expect(said(given, switchedOff(given, write('past'), from + 60_000))).toBe(given.verdicts.past);
  });

  it('a figure as large as a record can hold is judged by, whenever it is looked at', () => {
    const rule = catalogue.find((each) => each.id === given.ruleId);
    for (const name of rule?.parameters.keys() ?? [])
      for (const side of ['within', 'past'] as const)
        for (const now of ['2026-06-02 12:00', '2026-06-04 12:00', '2026-12-31 00:00']) {
          const season = write(side);
          season.adopted('2024-01-01 00:00', [{ ruleId: given.ruleId, parameters: { [name]: 999_999_999_999 } }]);
          const open = season.season();
          const said = evaluate(open, instant(now), { rules: catalogue.filter((each) => each === rule) });
          const times = [
            ...said.map(({ dueAt }) => dueAt ?? 0),
            ...deadlinesOf(open, instant(now)).map(({ at }) => at),
          ];
          for (const time of times) expect(new Date(time).getUTCFullYear()).toBeLessThan(10_000);
        }
  });

  const { stricter } = given;
  if (stricter !== undefined && typeof stricter !== 'string')
    it('a stricter figure of the operation’s own', () => {
      const season = write('within');
      season.adopted('2024-01-01 00:00', [{ ruleId: given.ruleId, parameters: stricter.parameters }]);
      expect(said(given, season)).toBe(stricter.verdict);
    });
});
