import { basename } from 'node:path';
import { Incoming } from '../exchange/index.ts';
import { appendingHere, appendingTo, previewBy, type Appending, type Result } from './appending.ts';
import { Refusal, type Command } from './command.ts';
import { importArchive, isArchive } from './import-archive.ts';
import { importTable, requestFor, tableFlags, tableOptions, type TableGiven } from './import-table.ts';
import { named } from './named.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { options } from './options.ts';
import { portions, type Line } from './records-file.ts';

/** `import` of a file of records, of a table, a logger's file or a map, or of a whole-operation archive. */
export const importRecords: Command = {
  verb: 'import',
  usage:
    'FILE.ndjson --operation ID [--url URL --token TOKEN] | FILE --as lots|materials|fields|plantings|people|readings|boundaries --operation ID [--sheet NAME] [--map NAME=COLUMN,…] [--preview] [--only-good] | ARCHIVE.tar --manager NAME [--key KEY]',
  purpose:
    'Records a file with one record a line: through a running service (--url, --token), else straight into the data here. Says of each wrong line what is wrong; the others are recorded. With --as, a table, a logger’s file or a map is read, and nothing is recorded while a row is wrong (docs/exchange.md). An archive comes in as a whole log, only read until it is taken over.',
  async run(args) {
    const own = ['operation', 'url', 'token', 'manager', 'key'] as const;
    const { given, flags, rest } = options(args, [...own, ...tableOptions], tableFlags);
    const [file, ...more] = rest;
    if (file === undefined || more.length > 0)
      throw new Refusal('one file is needed: import records.ndjson --operation ID');
    if (given.as !== undefined) return importAs(file, given, flags);
    const stray = tableOptions.find((name) => given[name] !== undefined) ?? [...flags][0];
    if (stray !== undefined) throw new Refusal(`--${stray} belongs to --as: say what the file is of.`);
    if (await isArchive(file)) return importArchive(file, given.manager, given.key);
    if (given.url === undefined && given.token === undefined) {
      const operationId = operationIdOf(given.operation);
      return withOperation(operationId, async (service) =>
        importFile(file, await appendingHere(service, operationId, basename(file))),
      );
    }
    if (given.url === undefined || given.token === undefined) throw new Refusal('--url and --token belong together.');
    const operationId = given.operation === undefined ? undefined : operationIdOf(given.operation);
    return importFile(file, await appendingTo(given.url, given.token, operationId));
  },
};

/** A table, a logger's file or a map: looked at first, here or by the service, then recorded as any other records. */
async function importAs(file: string, given: TableGiven, flags: ReadonlySet<string>): Promise<number> {
  const how = { onlyGood: flags.has('only-good'), onlyPreview: flags.has('preview') };
  const operationId = operationIdOf(given['operation']);
  const { url, token } = given;
  if (url === undefined && token === undefined) {
    return withOperation(operationId, async (service) => {
      const request = await requestFor(file, given, (kind, code) => named(service.context, operationId, kind, code));
      const preview = await service.context.get(Incoming).preview(operationId, request);
      return importTable(file, preview, how, () => appendingHere(service, operationId, basename(file)));
    });
  }
  if (url === undefined || token === undefined) throw new Refusal('--url and --token belong together.');
  const request = await requestFor(file, given, (_, id) => Promise.resolve(id));
  const preview = await previewBy(url, token, operationId, request);
  return importTable(file, preview, how, () => appendingTo(url, token, operationId));
}

async function importFile(file: string, appending: Appending): Promise<number> {
  const counts = { recorded: 0, duplicate: 0, refused: 0 };
  for await (const lines of portions(file)) {
    const records = lines.flatMap((line) => ('record' in line ? [line.record] : []));
    const results = records.length === 0 ? [] : await appending.append(records);
    let next = 0;
    for (const line of lines) {
      const result = 'record' in line ? results[next++] : undefined;
      counts[result?.status ?? 'refused'] += 1;
      for (const problem of problems(line, result)) console.error(`${file}:${line.number}: ${problem}`);
    }
  }
  const { recorded, duplicate, refused } = counts;
  console.log(`${recorded} recorded, ${duplicate} already there, ${refused} refused`);
  return refused === 0 ? 0 : 1;
}

/** What is wrong with a line, each with its member and the remedy. */
function problems(line: Line, result: Result | undefined): readonly string[] {
  if ('wrong' in line) return [line.wrong];
  if (result === undefined) return ['the service said nothing about it'];
  if (result.status !== 'refused') return [];
  const { detail, errors } = result.problem;
  return errors.length === 0 ? [detail] : errors.map((error) => `${error.pointer ?? ''} ${error.detail}`.trim());
}
