import type { Instant, Season } from '@furrowmark/domain';
import type { SubjectKind, Verdict } from '../outcome.ts';
import type { Judged } from './judged.ts';
import type { RuleBook } from './rule-book.ts';
import type { Rule } from './rule.ts';

/** Things that many batches share: a probe, a lot, a field's harvest. They are judged once, not once per batch. */
const shared: ReadonlySet<SubjectKind> = new Set<SubjectKind>([
  'lot',
  'pile',
  'source',
  'vessel',
  'equipment',
  'instrument',
  'application',
  'field',
  'planting',
  'harvest',
  'person',
  'material',
]);

/** What does not change as the clock goes on. */
const decided: ReadonlySet<Verdict> = new Set<Verdict>(['met', 'caution', 'broken']);

interface Before {
  readonly now: Instant;
  readonly judged: Judged | null;
}

/**
 * What was judged of shared things under one book, as long as the season stands still. A decided outcome serves every
 * later `now` too; any other only the same one.
 */
export class JudgedBefore {
  readonly version: number;
  readonly #books = new WeakMap<RuleBook, Map<Rule, Map<object, Before>>>();

  constructor(version: number) {
    this.version = version;
  }

  /** `judge` is asked where nothing fitting is known. `fact` is the season's own object, the same while it stands still. */
  once(book: RuleBook, rule: Rule, kind: SubjectKind, fact: object, now: Instant, judge: () => Judged | null) {
    if (!shared.has(kind)) return judge();
    const facts = inside(
      inside(this.#books, book, () => new Map<Rule, Map<object, Before>>()),
      rule,
      () => new Map(),
    );
    const before = facts.get(fact);
    if (before !== undefined && serves(before, now)) return before.judged;
    const judged = judge();
    facts.set(fact, { now, judged });
    return judged;
  }
}

const serves = (before: Before, now: Instant): boolean =>
  before.now === now || (before.judged !== null && before.now < now && decided.has(before.judged.outcome.outcome));

function inside<K extends object, V>(
  map: { get(key: K): V | undefined; set(key: K, value: V): unknown },
  key: K,
  make: () => V,
): V {
  let value = map.get(key);
  if (value === undefined) {
    value = make();
    map.set(key, value);
  }
  return value;
}

const kept = new WeakMap<Season, JudgedBefore>();

/** What is known of the season as it stands. */
export function judgedBefore(season: Season): JudgedBefore {
  let before = kept.get(season);
  if (before === undefined || before.version !== season.version) {
    before = new JudgedBefore(season.version);
    kept.set(season, before);
  }
  return before;
}
