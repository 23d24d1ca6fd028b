import { instantOf, type CurrentRecord, type Instant, type Season } from '@furrowmark/domain';
import type { Severity } from '../outcome.ts';

/** What one entry of an adoption asks of one rule. */
export interface BookEntry {
  readonly ruleId: string;
  readonly enabled?: boolean | undefined;
  readonly severity?: Severity | undefined;
  readonly parameters?: Readonly<Record<string, unknown>> | undefined;
  readonly inSystemPlan?: boolean | undefined;
  /** The certifier's ruling that asks for what this entry sets, by its `reference`. */
  readonly certifierReference?: string | undefined;
}

/** An adoption, reduced to what the book needs. */
export interface Adoption {
  /** null for one that is only tried out. */
  readonly seq: number | null;
  readonly recordId: string | null;
  readonly from: Instant;
  readonly entries: readonly BookEntry[];
}

/** A rule's entries from one instant on: what all adoptions so far name, the later over the earlier. */
export interface Segment {
  readonly from: Instant;
  readonly seq: number | null;
  readonly enabled: boolean;
  readonly severity: Severity | null;
  readonly inSystemPlan: boolean;
  /** The certifier's ruling behind what is set, where its letter is on record; null = none. */
  readonly ruling: string | null;
  readonly parameters: Readonly<Record<string, unknown>>;
}

const builtIn: Segment = {
  from: -Infinity,
  seq: null,
  enabled: true,
  severity: null,
  inSystemPlan: false,
  ruling: null,
  parameters: {},
};

/**
 * The operation's rule book through time. Built-in defaults hold until adopted otherwise; an adoption overrides what
 * it names from its `effectiveFrom` on, the rest stays. Equal times: the later in the order of records counts.
 */
export class RuleBook {
  readonly adoptions: readonly Adoption[];
  readonly #rulings: ReadonlySet<string>;
  readonly #segments = new Map<string, readonly Segment[]>();

  /** `rulings`: references of the certifier's rulings that are on record; an entry that names another rests on none. */
  constructor(adoptions: readonly Adoption[], rulings: ReadonlySet<string> = new Set()) {
    this.#rulings = rulings;
    this.adoptions = adoptions
      .map((adoption, order) => ({ adoption, order }))
      .sort((a, b) => a.adoption.from - b.adoption.from || a.order - b.order)
      .map(({ adoption }) => adoption);
  }

  /** The stretches of one rule, the built-in one first. */
  segments(ruleId: string): readonly Segment[] {
    let segments = this.#segments.get(ruleId);
    if (segments === undefined) {
      segments = this.#build(ruleId);
      this.#segments.set(ruleId, segments);
    }
    return segments;
  }

  #build(ruleId: string): readonly Segment[] {
    const segments: Segment[] = [builtIn];
    let last = builtIn;
    for (const { from, seq, entries } of this.adoptions) {
      for (const entry of entries) {
        if (entry.ruleId !== ruleId) continue;
        last = {
          from,
          seq,
          enabled: entry.enabled ?? last.enabled,
          severity: entry.severity ?? last.severity,
          inSystemPlan: entry.inSystemPlan ?? last.inSystemPlan,
          ruling: this.#rulingOf(entry, last),
          parameters: { ...last.parameters, ...entry.parameters },
        };
        segments.push(last);
      }
    }
    return segments;
  }

  /** A ruling stands behind what its entry set until another entry sets that otherwise. */
  #rulingOf({ certifierReference, enabled, parameters }: BookEntry, last: Segment): string | null {
    if (certifierReference !== undefined) return this.#rulings.has(certifierReference) ? certifierReference : null;
    return enabled === undefined && parameters === undefined ? last.ruling : null;
  }

  /** Whether the letter of a ruling is on record. */
  knowsRuling(reference: string): boolean {
    return this.#rulings.has(reference);
  }

  /** The same book with one more adoption, or without one of those it has. */
  with(adoption: Adoption): RuleBook {
    return new RuleBook([...this.adoptions, adoption], this.#rulings);
  }
  /** The same book had these entries outranked every adoption, at every instant. */
  overridden(entries: readonly BookEntry[]): RuleBook {
    const tried = (from: Instant): Adoption => ({ seq: null, recordId: null, from, entries });
    return new RuleBook(
      [tried(-Infinity), ...this.adoptions.flatMap((each) => [each, tried(each.from)])],
      this.#rulings,
    );
  }
  without(recordId: string): RuleBook {
    return new RuleBook(
      this.adoptions.filter((adoption) => adoption.recordId !== recordId),
      this.#rulings,
    );
  }
}

/** An adoption as the book reads it. */
export const adoptionOf = (record: CurrentRecord<'ruleBook.adopted'>): Adoption => ({
  seq: record.seq,
  recordId: record.id,
  from: instantOf(record.data.effectiveFrom),
  entries: record.data.entries,
});

const books = new WeakMap<Season, (only: string) => RuleBook>();

/** The book that the season's adoptions make. Kept until one is added, or a letter of the certifier. */
export function ruleBookOf(season: Season): RuleBook {
  let book = books.get(season);
  if (book === undefined) {
    book = season.view('rule book', () => {
      const rulings = season.ofType('certifier.wrote').filter(({ data }) => data.kind === 'ruling');
      return new RuleBook(season.adoptions().map(adoptionOf), new Set(rulings.map(({ data }) => data.reference)));
    });
    books.set(season, book);
  }
  return book('');
}
