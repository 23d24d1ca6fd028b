import type { ClientMembers } from '@furrowmark/domain';

export interface CellProblem {
  /** The column's header; null where the whole row is meant. */
  readonly column: string | null;
  readonly detail: string;
}

/**
 * What became of a row: `good` can be recorded; `known` is recorded already; `leftOut` was not asked for or repeats
 * another row; `wrong` has problems.
 */
export interface PreviewRow {
  readonly line: number;
  readonly state: 'good' | 'known' | 'leftOut' | 'wrong';
  readonly records: readonly ClientMembers[];
  readonly problems: readonly CellProblem[];
}

export interface PreviewColumn {
  readonly member: string;
  readonly title: string;
  readonly needed: boolean;
  /** The column that serves it; null where none does. */
  readonly column: string | null;
}

/** What a file would become. Nothing of it is recorded. */
export interface ImportPreview {
  readonly as: string;
  readonly delimiter: string | null;
  readonly header: readonly string[];
  readonly columns: readonly PreviewColumn[];
  /** What has to be said before rows can be read: a column, a unit, the order of dates. */
  readonly asks: readonly string[];
  readonly rows: readonly PreviewRow[];
  readonly counts: Readonly<Record<PreviewRow['state'], number>>;
  /** Gaps, repetitions and the like. */
  readonly notes: readonly string[];
}

export const counted = (rows: readonly PreviewRow[]): ImportPreview['counts'] => {
  const counts = { good: 0, known: 0, leftOut: 0, wrong: 0 };
  for (const { state } of rows) counts[state] += 1;
  return counts;
};
