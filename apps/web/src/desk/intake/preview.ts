import { listOf, memberOf, numberOf, textOf, textsOf } from '../../http/read.ts';
import type { SentRecord } from '../../store/queued.ts';

export const kinds = ['lots', 'materials', 'fields', 'plantings', 'people', 'readings', 'boundaries'] as const;
export type Kind = (typeof kinds)[number];
export const isKind = (text: string): text is Kind => kinds.some((kind) => kind === text);

export type RowState = 'good' | 'known' | 'leftOut' | 'wrong';
const states: readonly RowState[] = ['good', 'known', 'leftOut', 'wrong'];

export interface PreviewRow {
  readonly line: number;
  readonly state: RowState;
  readonly records: readonly SentRecord[];
  readonly problems: readonly { readonly column: string | null; readonly detail: string }[];
}

/** What a file would become, as the service says it. */
export interface Preview {
  readonly header: readonly string[];
  readonly columns: readonly {
    readonly member: string;
    readonly title: string;
    readonly needed: boolean;
    readonly column: string | null;
  }[];
  readonly asks: readonly string[];
  readonly rows: readonly PreviewRow[];
  readonly counts: Readonly<Record<RowState, number>>;
  readonly notes: readonly string[];
}

export function previewIn(body: unknown): Preview {
  const counts = memberOf(body, 'counts');
  return {
    header: textsOf(body, 'header'),
    columns: listOf(body, 'columns').map((each) => ({
      member: textOf(each, 'member') ?? '',
      title: textOf(each, 'title') ?? '',
      needed: memberOf(each, 'needed') === true,
      column: textOf(each, 'column'),
    })),
    asks: textsOf(body, 'asks'),
    rows: listOf(body, 'rows').map(rowIn),
    counts: {
      good: numberOf(counts, 'good') ?? 0,
      known: numberOf(counts, 'known') ?? 0,
      leftOut: numberOf(counts, 'leftOut') ?? 0,
      wrong: numberOf(counts, 'wrong') ?? 0,
    },
    notes: textsOf(body, 'notes'),
  };
}

const rowIn = (row: unknown): PreviewRow => ({
  line: numberOf(row, 'line') ?? 0,
  state: states.find((state) => state === textOf(row, 'state')) ?? 'wrong',
  records: listOf(row, 'records').filter(isRecord),
  problems: listOf(row, 'problems').map((each) => ({
    column: textOf(each, 'column'),
    detail: textOf(each, 'detail') ?? '',
  })),
});

/** The service made it from the file and looked at it as at any record; the log looks once more. */
const isRecord = (value: unknown): value is SentRecord =>
  ['id', 'type', 'occurredAt'].every((name) => textOf(value, name) !== null) &&
  typeof memberOf(value, 'data') === 'object';
