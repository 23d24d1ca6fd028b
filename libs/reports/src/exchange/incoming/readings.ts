import {
  localText,
  parseDraft,
  textWithOffset,
  unitMeant,
  utcText,
  zonedText,
  type ClientMembers,
  type Instant,
  type NamedDimension,
} from '@furrowmark/domain';
import { matched, proposed, unitIn, type Member, type Places } from './columns.ts';
import { gapsIn, thinned, type Taken } from './reading-times.ts';
import { idFrom } from './ids.ts';
import { figure, timeOf } from './reading-row.ts';
import { readSheet, type Sheet } from './sheet.ts';
import type { Setting, TableOrder } from './table.ts';
import { counted, type CellProblem, type ImportPreview, type PreviewRow } from './types.ts';

const members: readonly Member[] = [
  {
    name: 'time',
    title: 'Date and time',
    needed: true,
    said: ['timestamp', 'date time', 'datetime', 'date', 'local time', 'fecha y hora', 'fecha'],
  },
  { name: 'clock', title: 'Time of day', needed: false, said: ['time of day', 'hour', 'hora'] },
  {
    name: 'dissolvedOxygen',
    title: 'Dissolved oxygen',
    needed: true,
    said: ['do', 'oxygen', 'do conc', 'do concentration', 'o2', 'oxigeno disuelto', 'oxigeno', 'od'],
  },
  {
    name: 'temperature',
    title: 'Temperature',
    needed: false,
    said: ['temp', 'water temp', 'water temperature', 't', 'temperatura'],
  },
];

/** Readings of a file at once: a reading a minute for two weeks. */
const mostRows = 20_160;

/** What a logger's file needs to be told. */
export interface ReadingsOrder extends TableOrder {
  readonly batchId: string | undefined;
  readonly instrumentId: string | undefined;
  /** Minutes east of UTC of a logger whose clock never changes for summer time; else it keeps the operation's time. */
  readonly offsetMinutes: number | undefined;
  /** Bounds in time; the batch's own from opening to closing where left out. */
  readonly from: Instant | undefined;
  readonly to: Instant | undefined;
  /** Of each such stretch only the lowest reading is taken. */
  readonly everyMinutes: number | undefined;
}

/** Readings of dissolved oxygen, and temperature where there is one, from a logger's file: the batch's own records. */
export function previewReadings(order: ReadingsOrder, setting: Setting): ImportPreview {
  const isHeader = (cells: readonly string[]): boolean => {
    const places = proposed(members, cells);
    return members.every(({ name, needed }) => !needed || places.has(name));
  };
  const sheet = readSheet(order.text, { delimiter: order.delimiter, isHeader, most: mostRows });
  if ('fault' in sheet) return previewOf(null, new Map(), [sheet.fault], [], []);
  // "Date" beside "Time": together they are the time.
  const { places: found, faults } = matched(members, sheet.header, order.columns);
  const places = withClock(found, sheet.header, order.columns);
  const units = {
    dissolvedOxygen: unitOf('dissolvedOxygen', ['concentration'], sheet, places, order),
    temperature: unitOf('temperature', ['temperature'], sheet, places, order),
  };
  const asks = [
    ...faults,
    ...batchAsked(order, setting),
    ...Object.values(units).flatMap((unit) => ('ask' in unit ? [unit.ask] : [])),
  ];
  if (asks.length > 0 || 'ask' in units.dissolvedOxygen || 'ask' in units.temperature)
    return previewOf(sheet, places, asks, [], []);
  const given = { dissolvedOxygen: units.dissolvedOxygen.unit, temperature: units.temperature.unit };
  const { rows, notes } = readRows(sheet, places, given, order, setting);
  return previewOf(sheet, places, [], rows, notes);
}

function withClock(places: Places, header: readonly string[], asked: Readonly<Record<string, string | null>>): Places {
  if (places.has('clock') || Object.hasOwn(asked, 'clock')) return places;
  const used = new Set(places.values());
  const place = header.findIndex((text, i) => !used.has(i) && /^time\b/i.test(text.trim()));
  return place < 0 ? places : new Map([...places, ['clock', place]]);
}

function batchAsked({ batchId }: ReadingsOrder, { season }: Setting): string[] {
  if (batchId === undefined) return ['Name the batch that the readings are of.'];
  return season.batch(batchId) === undefined ? ['The batch is not known: open it first, or name another.'] : [];
}

/** `1 reading is`, `2 readings are`. */
const many = (count: number): string => (count === 1 ? '1 reading is' : `${count} readings are`);

/** A unit from the header, else as said for the file; asked for where neither tells. */
function unitOf(
  member: string,
  dimensions: readonly NamedDimension[],
  sheet: Sheet,
  places: Places,
  { reading }: ReadingsOrder,
): { readonly unit: string | null } | { readonly ask: string } {
  const place = places.get(member);
  if (place === undefined) return { unit: null };
  const header = sheet.header[place] ?? '';
  const written = reading.units[member] ?? unitIn(header);
  const title = members.find(({ name }) => name === member)?.title ?? member;
  if (written === null) return { ask: `In what unit is “${header}” (${title})? The file does not say.` };
  if (written.includes('%'))
    return { ask: `“${header}” is in percent of saturation: let the logger write mg/L, which is what is recorded.` };
  const unit = unitMeant(written, dimensions);
  return unit === null
    ? { ask: `“${written}” is no unit of ${title.toLowerCase()}: say which one “${header}” is in.` }
    : { unit };
}

interface Units {
  readonly dissolvedOxygen: string | null;
  readonly temperature: string | null;
}

function readRows(
  sheet: Sheet,
  places: Places,
  units: Units,
  order: ReadingsOrder,
  setting: Setting,
): { rows: PreviewRow[]; notes: string[] } {
  const { timeZone } = setting.season;
  const bounds = boundsOf(order, setting);
  const taken: Taken[] = [];
  let previous: Instant | null = null;
  let [outside, backwards] = [0, 0];
  for (const row of sheet.rows) {
    const problems: CellProblem[] = [];
    const at = timeOf(row, sheet, places, order, timeZone, previous, problems);
    const [oxygen, temperature] = (['dissolvedOxygen', 'temperature'] as const).map((member) =>
      figure(row, sheet, places, member, order, problems),
    );
    if (at !== null) {
      if (previous !== null && at.instant < previous) backwards += 1;
      previous = at.instant;
    }
    if (problems.length > 0 || at === null || oxygen === null || oxygen === undefined) {
      taken.push({ row, problems, at: null, oxygen: 0, temperature: null, offsetMinutes: null });
      continue;
    }
    const isOutside = at.instant < bounds.from || at.instant > bounds.to;
    if (isOutside) outside += 1;
    taken.push({
      row,
      problems,
      at: isOutside ? null : at.instant,
      oxygen,
      temperature: temperature ?? null,
      offsetMinutes: at.offsetMinutes,
    });
  }
  const { kept, repeated, rivals } = thinned(taken, order.everyMinutes);
  const notes = [
    ...(outside === 0
      ? []
      : [
          `${many(outside)} outside ${localText(bounds.from, timeZone)} – ${localText(bounds.to, timeZone)}: left out.`,
        ]),
    ...(repeated === 0 ? [] : [`${many(repeated)} there a second time: taken once.`]),
    ...(backwards === 0
      ? []
      : [
          `The time goes back ${backwards === 1 ? 'once' : `${backwards} times`}: the file is not in order, or the logger’s clock was set.`,
        ]),
    ...gapsIn(kept, timeZone),
  ];
  const rows = taken.map((each): PreviewRow => {
    const { line } = each.row;
    const rival = rivals.get(each);
    const problems =
      rival === undefined
        ? each.problems
        : [{ column: null, detail: `says something else for the same time as line ${rival}` }];
    if (problems.length > 0) return { line, state: 'wrong', records: [], problems };
    if (each.at === null || !kept.has(each)) return { line, state: 'leftOut', records: [], problems: [] };
    return recorded(each, units, order, setting);
  });
  return { rows, notes };
}

function boundsOf(
  { from, to, batchId = '' }: ReadingsOrder,
  { season, now }: Setting,
): { readonly from: Instant; readonly to: Instant } {
  const batch = season.batch(batchId);
  return {
    from: from ?? batch?.opened?.at.at ?? batch?.fills[0]?.started.at ?? -Infinity,
    to: to ?? batch?.closed?.at.at ?? now,
  };
}

function recorded(
  { row: { line }, at, oxygen, temperature, offsetMinutes }: Taken,
  units: Units,
  { batchId, instrumentId }: ReadingsOrder,
  { season, operationId, now }: Setting,
): PreviewRow {
  const data: Record<string, unknown> = { batchId, dissolvedOxygen: { value: oxygen, unit: units.dissolvedOxygen } };
  if (temperature !== null) data['temperature'] = { value: temperature, unit: units.temperature };
  if (instrumentId !== undefined) data['instrumentId'] = instrumentId;
  const instant = at ?? 0;
  const occurredAt =
    instant % 1000 !== 0
      ? utcText(instant)
      : offsetMinutes === null
        ? zonedText(instant, season.timeZone)
        : textWithOffset(instant, offsetMinutes);
  const id = idFrom(operationId, 'reading', occurredAt, data);
  const draft = { id, type: 'batch.oxygenMeasured', version: 1, occurredAt, origin: 'instrument', data };
  const parsed = parseDraft(draft, { now });
  const problems: CellProblem[] = parsed.ok
    ? []
    : parsed.problem.errors.map(({ detail }) => ({ column: null, detail }));
  const records: ClientMembers[] = parsed.ok ? [parsed.sent] : [];
  if (problems.length > 0) return { line, state: 'wrong', records: [], problems };
  return season.record(id) === undefined
    ? { line, state: 'good', records, problems }
    : { line, state: 'known', records: [], problems };
}

function previewOf(
  sheet: Sheet | null,
  places: Places,
  asks: readonly string[],
  rows: readonly PreviewRow[],
  notes: readonly string[],
): ImportPreview {
  const header = sheet?.header ?? [];
  return {
    as: 'readings',
    delimiter: sheet?.delimiter ?? null,
    header,
    columns: members.map(({ name, title, needed }) => {
      const place = places.get(name);
      return { member: name, title, needed, column: place === undefined ? null : (header[place] ?? null) };
    }),
    asks,
    rows,
    counts: counted(rows),
    notes,
  };
}
