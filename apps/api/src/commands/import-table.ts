import { readFile } from 'node:fs/promises';
import { importKinds, importRequest, type ImportPreview, type ImportRequest } from '@furrowmark/reports';
import { spreadsheetText } from '@furrowmark/reports/spreadsheet';
import { decoded } from '../exchange/decoded.ts';
import type { Appending } from './appending.ts';
import { Refusal } from './command.ts';

/** Options of `import` that say how a table, a logger's file or a map is to be read. */
export const tableOptions = [
  ...['as', 'sheet', 'map', 'units', 'delimiter', 'decimal', 'dates', 'on', 'origin'],
  ...['batch', 'instrument', 'offset', 'from', 'to', 'every', 'property', 'land'],
] as const;
export const tableFlags = ['preview', 'only-good'] as const;

export type TableGiven = Readonly<Partial<Record<string, string>>>;

/** `code=Lot no., material=Product`: names, each with what belongs to it. An empty one leaves the name out. */
function pairs(option: string, text: string | undefined): Record<string, string> {
  if (text === undefined) return {};
  return Object.fromEntries(
    text.split(/,(?=\s*\w+\s*=)/).map((pair) => {
      // eslint-disable-next-line regexp/no-super-linear-backtracking -- what somebody typed on their own machine
      const [, name, value] = /^\s*(\w+)\s*=\s*(.*?)\s*$/s.exec(pair) ?? [];
      if (name === undefined || value === undefined)
        throw new Refusal(`--${option} "${pair.trim()}" is not NAME=VALUE.`);
      return [name, value];
    }),
  );
}

/** The file as text; of a spreadsheet, one sheet. */
async function tableIn(path: string, sheet: string | undefined): Promise<string> {
  const bytes = await readFile(path);
  if (!/\.xlsx$/i.test(path)) {
    const { text, encoding } = decoded(bytes);
    if (encoding !== 'utf-8') console.error(`${path} is read as ${encoding}.`);
    return text;
  }
  const read = await spreadsheetText(Uint8Array.from(bytes).buffer, sheet);
  if (read === null)
    throw new Refusal(
      sheet === undefined
        ? `${path} holds no table that can be read: save it as .xlsx or .csv anew.`
        : `${path} has no sheet "${sheet}" with anything in it.`,
    );
  const others = read.others.length === 0 ? '' : ` (--sheet reads another: ${read.others.join(', ')})`;
  console.error(`${path}: sheet "${read.sheet}" is read${others}.`);
  return read.text;
}

/** The file with what the options say about it; ids of batch and instrument are looked up by `named`. */
export async function requestFor(
  path: string,
  given: TableGiven,
  named: (kind: 'batch' | 'instrument', code: string) => Promise<string>,
): Promise<ImportRequest> {
  const text = await tableIn(path, given['sheet']);
  const columns = Object.fromEntries(
    Object.entries(pairs('map', given['map'])).map(([name, column]) => [name, column === '' ? null : column]),
  );
  const wish = {
    ...{ as: given['as'], text, columns, units: pairs('units', given['units']) },
    ...{
      delimiter: given['delimiter'] === 'tab' ? '\t' : given['delimiter'],
      decimal: given['decimal'],
      dates: given['dates'],
    },
    ...{ on: given['on'], origin: given['origin'], offset: given['offset'], from: given['from'], to: given['to'] },
    ...{ property: given['property'], landStatus: given['land'] },
    everyMinutes: given['every'] === undefined ? undefined : Number(given['every']),
    batchId: given['batch'] === undefined ? undefined : await named('batch', given['batch']),
    instrumentId: given['instrument'] === undefined ? undefined : await named('instrument', given['instrument']),
  };
  const parsed = importRequest.safeParse(JSON.parse(JSON.stringify(wish)));
  if (parsed.success) return parsed.data;
  const option: Readonly<Record<string, string>> = {
    everyMinutes: 'every',
    landStatus: 'land',
    columns: 'map',
    batchId: 'batch',
    instrumentId: 'instrument',
  };
  throw new Refusal(
    parsed.error.issues
      .map(({ path: [member], message }) => {
        const name = String(member);
        return name === 'as' ? `--as is one of ${importKinds.join(', ')}.` : `--${option[name] ?? name}: ${message}`;
      })
      .join('\n'),
  );
}

/** Most of one request to a service. */
const mostBytes = 900_000;
const mostRecords = 500;

function* portionsOf(records: readonly unknown[]): Generator<readonly unknown[]> {
  let [portion, bytes]: [unknown[], number] = [[], 0];
  for (const record of records) {
    const size = Buffer.byteLength(JSON.stringify(record));
    if (portion.length === mostRecords || (portion.length > 0 && bytes + size > mostBytes)) {
      yield portion;
      [portion, bytes] = [[], 0];
    }
    portion.push(record);
    bytes += size;
  }
  if (portion.length > 0) yield portion;
}

/** Tells what the file would become; records it unless something is wrong, or what is good of it where that is wanted. */
export async function importTable(
  path: string,
  preview: ImportPreview,
  { onlyGood, onlyPreview }: { readonly onlyGood: boolean; readonly onlyPreview: boolean },
  appending: () => Promise<Appending>,
): Promise<number> {
  if (preview.asks.length > 0) throw new Refusal(preview.asks.join('\n'));
  for (const { title, column } of preview.columns) console.log(`${title.padEnd(34)} ${column ?? '–'}`);
  for (const note of preview.notes) console.error(note);
  for (const { line, problems } of preview.rows)
    for (const { column, detail } of problems)
      console.error(`${path}:${line}: ${column === null ? '' : `${column}: `}${detail}`);
  const { good, known, leftOut, wrong } = preview.counts;
  console.log(`${good} can be recorded, ${known} are recorded already, ${leftOut} left out, ${wrong} wrong`);
  if (onlyPreview) return wrong === 0 ? 0 : 1;
  if (wrong > 0 && !onlyGood) {
    console.log('Nothing was recorded. Mend the rows, or record the good ones with --only-good.');
    return 1;
  }
  const counts = { recorded: 0, duplicate: 0, refused: 0 };
  const records = preview.rows.flatMap((row) => row.records);
  if (records.length > 0) {
    const to = await appending();
    for (const portion of portionsOf(records)) {
      for (const result of await to.append(portion)) {
        counts[result.status] += 1;
        if (result.status === 'refused') console.error(result.problem.detail);
      }
    }
  }
  console.log(`${counts.recorded} recorded, ${counts.duplicate} already there, ${counts.refused} refused`);
  return wrong === 0 && counts.refused === 0 ? 0 : 1;
}
