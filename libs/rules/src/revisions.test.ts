import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from '@jest/globals';
import fc from 'fast-check';
import { format, resolveConfig } from 'prettier';
import { catalogue } from './catalogue.ts';
import { evaluate } from './engine/evaluate.ts';
import { randomSeason } from './testing/random-season.ts';
import { instant, type SeasonBuilder } from './testing/season.ts';
import { workedCases } from './testing/worked/index.ts';

/*
 * A rule's revision says whether it still judges as it did when a review was signed: an upgrade lists what would differ
 * by it. So that none changes unnoticed, what each says of some hundred seasons is kept beside its revision. This does
 * not tell whether a rule is right; the tests of the rule do.
 */

const file = new URL('./testing/revisions.json', import.meta.url);

interface Kept {
  readonly revision: number;
  readonly outcomes: number;
  readonly sha256: string;
}
interface Revisions {
  /** Of the seasons themselves. */
  readonly seasons: string;
  readonly rules: Readonly<Record<string, Kept>>;
}

const seasons: readonly SeasonBuilder[] = [
  ...workedCases.flatMap((given) => {
    const { stricter, unsure } = given;
    const limited = stricter === undefined || typeof stricter === 'string' ? [] : [given.write('within', {})];
    if (stricter !== undefined && typeof stricter !== 'string')
      for (const season of limited)
        season.adopted('2024-01-01 00:00', [{ ruleId: given.ruleId, parameters: stricter.parameters }]);
    return [
      ...[given.write('within', {}), given.write('past', {}), given.unknown.write(), ...limited],
      // Times that are sure to a minute, to a quarter of an hour, to an hour and a half, and as the case has it.
      ...[1, 15, 90, ...(typeof unsure === 'string' ? [] : [unsure.minutes])].map((plusMinusMinutes) =>
        given.write('within', { plusMinusMinutes }),
      ),
    ];
  }),
  ...fc.sample(randomSeason, { seed: 20261126, numRuns: 100 }),
];

const sha256 = (value: unknown): string =>
  createHash('sha256').update(JSON.stringify(value)).digest('hex').slice(0, 32);

function judgedNow(): Revisions {
  const said = new Map<string, unknown[]>(catalogue.map(({ id }) => [id, []]));
  for (const [i, season] of seasons.entries())
    for (const now of ['2026-06-04 12:00', '2026-12-31 00:00'])
      for (const outcome of evaluate(season.season(), instant(now))) {
        // Words are told from what was said, and may be put better without judging otherwise.
        const { ruleId, about, outcome: verdict, said: facts, figures, recordIds, dueAt, severity, basis } = outcome;
        said.get(ruleId)?.push([i, now, about, verdict, facts, figures, recordIds, dueAt ?? null, severity, basis]);
      }
  return {
    seasons: sha256(seasons.map(({ records }) => records)),
    rules: Object.fromEntries(
      catalogue.map(({ id, revision }) => {
        const outcomes = said.get(id) ?? [];
        return [id, { revision, outcomes: outcomes.length, sha256: sha256(outcomes) }];
      }),
    ),
  };
}

const now = judgedNow();
const kept: Revisions = JSON.parse(readFileSync(file, 'utf8'));
const sameSeasons = kept.seasons === now.seasons;

/** Of a rule whose revision stayed, what it says may have changed only because the seasons did. */
const changedUnnoticed = catalogue.filter(({ id, revision }) => {
  const before = kept.rules[id];
  return sameSeasons && before?.revision === revision && before.sha256 !== now.rules[id]?.sha256;
});

it('a rule that judges otherwise than it did has another revision', () => {
  expect(changedUnnoticed.map(({ id, revision }) => `${id}, revision ${String(revision)}`)).toEqual([]);
});

it('what is kept is of the rules and the seasons as they are; WRITE_REVISIONS=1 writes it anew', async () => {
  if (process.env['WRITE_REVISIONS'] === '1' && changedUnnoticed.length === 0)
    writeFileSync(file, await format(JSON.stringify(now), { ...(await resolveConfig(file)), parser: 'json' }));
  const written: Revisions = JSON.parse(readFileSync(file, 'utf8'));
  expect(written).toEqual(now);
});

it('every rule has something to say of these seasons', () => {
  for (const [id, { outcomes }] of Object.entries(now.rules)) expect([id, outcomes > 0]).toEqual([id, true]);
});
