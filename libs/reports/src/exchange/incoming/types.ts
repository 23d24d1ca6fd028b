import type { ClientMembers } from '@furrowmark/domain';
import { z } from 'zod';

const cellProblem = z.object({
  /** The column's header; null where the whole row is meant. */
  column: z.string().nullable(),
  detail: z.string(),
});
export type CellProblem = Readonly<z.output<typeof cellProblem>>;

/**
 * What became of a row: `good` can be recorded; `known` is recorded already; `leftOut` was not asked for or repeats
 * another row; `wrong` has problems.
 */
export const rowStates = ['good', 'known', 'leftOut', 'wrong'] as const;
export type RowState = (typeof rowStates)[number];

export interface PreviewRow {
  readonly line: number;
  readonly state: RowState;
  /** As the log takes them; empty unless the row is good. */
  readonly records: readonly ClientMembers[];
  readonly problems: readonly CellProblem[];
}

const column = z.object({
  member: z.string(),
  title: z.string(),
  needed: z.boolean(),
  /** The column that serves it; null where none does. */
  column: z.string().nullable(),
});
export type PreviewColumn = Readonly<z.output<typeof column>>;

/** What a file would become. Nothing of it is recorded. */
export interface ImportPreview {
  readonly as: string;
  readonly delimiter: string | null;
  readonly header: readonly string[];
  readonly columns: readonly PreviewColumn[];
  /** What has to be said before rows can be read: a column, a unit, the property that names a field. */
  readonly asks: readonly string[];
  readonly rows: readonly PreviewRow[];
  readonly counts: Readonly<Record<RowState, number>>;
  /** Gaps, repetitions and the like. */
  readonly notes: readonly string[];
}

const whole = z.number().int().min(0);
/** A preview as it comes over the wire: its records are looked at when they are appended. */
export const importPreview = z.object({
  as: z.string(),
  delimiter: z.string().nullable(),
  header: z.array(z.string()),
  columns: z.array(column),
  asks: z.array(z.string()),
  rows: z.array(
    z.object({
      line: whole,
      state: z.enum(rowStates),
      records: z.array(z.custom<ClientMembers>((record) => typeof record === 'object' && record !== null)),
      problems: z.array(cellProblem),
    }),
  ),
  counts: z.object({ good: whole, known: whole, leftOut: whole, wrong: whole }),
  notes: z.array(z.string()),
});

export const counted = (rows: readonly PreviewRow[]): ImportPreview['counts'] => {
  const counts = { good: 0, known: 0, leftOut: 0, wrong: 0 };
  for (const { state } of rows) counts[state] += 1;
  return counts;
};
