import {
  parseDraft,
  startOfDay,
  zonedText,
  type ClientMembers,
  type Instant,
  type OpenSeason,
} from '@furrowmark/domain';
import { matched, proposed, type Places } from './columns.ts';
import { idFrom } from './ids.ts';
import type { Around, Made, TableKind, Wish } from './kind.ts';
import { Row, type Reading } from './row.ts';
import { readSheet, type Delimiter, type Sheet } from './sheet.ts';
import { counted, type ImportPreview, type PreviewRow } from './types.ts';

/** Rows of a table at once. */
const mostRows = 2_000;

/** How a table is to be read; everything else is seen from the file. */
export interface TableOrder {
  readonly text: string;
  readonly delimiter?: Delimiter | undefined;
  readonly columns: Readonly<Record<string, string | null>>;
  readonly reading: Reading;
  /** The local day on which things are registered that have no date of their own. */
  readonly on: string;
  /** How the operation knows: copied from paper made at the time, from memory, … */
  readonly origin: string;
}

/** What a preview needs besides the file. */
export interface Setting {
  readonly season: OpenSeason;
  readonly operationId: string;
  readonly now: Instant;
  newId(): string;
}

/** Reads a table as things of one kind: which rows can be recorded, and what is wrong with the others. */
export function previewTable(kind: TableKind, order: TableOrder, setting: Setting): ImportPreview {
  const isHeader = (cells: readonly string[]): boolean => {
    const places = proposed(kind.members, cells);
    return kind.members.every(({ name, needed }) => !needed || places.has(name));
  };
  const sheet = readSheet(order.text, { delimiter: order.delimiter, isHeader, most: mostRows });
  if ('fault' in sheet) return previewOf(kind, null, new Map(), [sheet.fault], []);
  const { places, faults } = matched(kind.members, sheet.header, order.columns);
  if (faults.length > 0) return previewOf(kind, sheet, places, faults, []);
  const rows = sheet.rows.map((row) => new Row(row, places, sheet.header, order.reading));
  const around = aroundOf(kind, rows, setting);
  const seen = new Map<string, number>();
  const read = rows.map((row): PreviewRow => {
    const key = kind.key(row);
    const before = key === undefined ? undefined : seen.get(key);
    if (key !== undefined && before === undefined) seen.set(key, row.line);
    if (before !== undefined) row.problem(kind.members[0]?.name ?? '', `repeats line ${before}: leave one of them out`);
    const made = kind.make(row, around);
    return finished(row, made, order, setting);
  });
  return previewOf(kind, sheet, places, [], read);
}

function aroundOf(kind: TableKind, rows: readonly Row[], { season, operationId, newId }: Setting): Around {
  const described = new Map<string, string>();
  if (kind.as === 'fields') {
    for (const row of rows) {
      const code = row.text('code');
      if (code !== undefined && !described.has(code.toLowerCase()))
        described.set(code.toLowerCase(), idFrom(operationId, kind.as, code));
    }
  }
  return { season, newId, described, thingId: (_, ...content) => idFrom(operationId, kind.as, ...content) };
}

/** The row's records, each looked at as the log would; problems come back to the columns they are of. */
function finished(row: Row, made: Made, order: TableOrder, setting: Setting): PreviewRow {
  const state = (now: PreviewRow['state'], records: readonly ClientMembers[] = []): PreviewRow => ({
    line: row.line,
    state: now,
    records,
    problems: row.problems,
  });
  if (row.problems.length > 0 || made === null) return state('wrong');
  if ('known' in made) return state('known');
  const records = made.wishes.flatMap((wish) => {
    const record = recordOf(row, wish, order, setting);
    return record === null ? [] : [record];
  });
  if (row.problems.length > 0) return state('wrong');
  const fresh = records.filter(({ id }) => setting.season.record(id) === undefined);
  return fresh.length === 0 ? state('known') : state('good', records);
}

function recordOf(
  row: Row,
  wish: Wish,
  { on, origin }: TableOrder,
  { season, operationId, now, newId }: Setting,
): ClientMembers | null {
  const { timeZone } = season;
  const occurredAt = zonedText(startOfDay(wish.on ?? on, timeZone), timeZone);
  // Nobody's name may be guessed from an id: see people.
  const id = wish.type === 'person.registered' ? newId() : idFrom(operationId, wish.type, occurredAt, wish.data);
  const draft = {
    id,
    type: wish.type,
    version: 1,
    occurredAt,
    ...(origin === 'observed' ? {} : { origin }),
    data: wish.data,
  };
  const parsed = parseDraft(draft, { now });
  if (parsed.ok) return parsed.sent;
  for (const { pointer, detail } of parsed.problem.errors) {
    const [, top, member = ''] = pointer.split('/');
    const named = top === 'data' ? member : 'receivedOn';
    row.problem(wish.columns?.[named] ?? named, detail);
  }
  return null;
}

function previewOf(
  { as, members }: TableKind,
  sheet: Sheet | null,
  places: Places,
  asks: readonly string[],
  rows: readonly PreviewRow[],
): ImportPreview {
  const header = sheet?.header ?? [];
  return {
    as,
    delimiter: sheet?.delimiter ?? null,
    header,
    columns: members.map(({ name, title, needed }) => {
      const place = places.get(name);
      return { member: name, title, needed, column: place === undefined ? null : (header[place] ?? null) };
    }),
    asks,
    rows,
    counts: counted(rows),
    notes: [],
  };
}
