import { createWriteStream } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { extname } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { pdfStream } from '@furrowmark/pdf';
import {
  csvOf,
  isRefusal,
  jsonOf,
  reportKind,
  reportKinds,
  tablesOf,
  type ReportContent,
  type ReportRefusal,
} from '@furrowmark/reports';
import { Reports } from '../reports/index.ts';
import { Refusal, type Command } from './command.ts';
import { named } from './named.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { options } from './options.ts';

const things = ['batch', 'lot', 'field', 'harvest'] as const;
const others = ['from', 'to', 'on', 'since', 'crop', 'material', 'person', 'gln', 'gtin'] as const;

export const report: Command = {
  verb: 'report',
  usage:
    'KIND --operation ID [--batch|--lot|--field|--harvest CODE] [--from DAY --to DAY] [--language en|es] --out FILE.pdf|.csv|.json|.jsonld',
  purpose: `Writes a report. Kinds: ${reportKinds.map(({ kind }) => kind).join(', ')}.`,
  async run(args) {
    const { given, rest } = options(args, ['operation', 'out', 'language', 'paper', 'table', ...things, ...others]);
    const [kind, ...more] = rest;
    if (kind === undefined || more.length > 0)
      throw new Refusal('one kind of report is needed; `help report` lists them.');
    if (reportKind(kind) === undefined)
      throw new Refusal(`there is no report "${kind}". There are: ${reportKinds.map((each) => each.kind).join(', ')}.`);
    const { out, language = 'en', paper = 'letter' } = given;
    if (out === undefined) throw new Refusal('--out FILE is needed; it ends in .pdf, .csv, .json or .jsonld.');
    if (language !== 'en' && language !== 'es') throw new Refusal(`--language is "${language}"; it must be en or es.`);
    if (paper !== 'letter' && paper !== 'a4') throw new Refusal(`--paper is "${paper}"; it must be letter or a4.`);
    const operationId = operationIdOf(given.operation);
    await withOperation(operationId, async ({ context }) => {
      const parameters: Record<string, string> = {};
      for (const name of others) if (given[name] !== undefined) parameters[name] = given[name];
      for (const thing of things) {
        const code = given[thing];
        if (code !== undefined) parameters[thing] = await named(context, operationId, thing, code);
      }
      const reports = context.get(Reports);
      if (extname(out) === '.jsonld') {
        const data = madeOf(kind, await reports.linkedData(operationId, { kind, language, parameters }));
        return writeFile(out, `${JSON.stringify(data, null, 2)}\n`);
      }
      const made = madeOf(kind, await reports.content(operationId, { kind, language, parameters }));
      const { content, preparedAt } = made;
      return write(out, content, given.table, () => pdfStream(content, { paper, createdAt: preparedAt }));
    });
    console.log(out);
    return 0;
  },
};

function madeOf<T extends object>(kind: string, made: T | ReportRefusal | null): T {
  if (made === null) throw new Refusal(`there is no report "${kind}" in this form.`);
  if (!isRefusal(made)) return made;
  throw new Refusal(
    made.reason === 'unknown'
      ? 'what it should be about is not known.'
      : made.faults.map(({ parameter, detail }) => `--${parameter} ${detail}`).join('; '),
  );
}

async function write(
  out: string,
  content: ReportContent,
  wanted: string | undefined,
  pdf: () => ReturnType<typeof pdfStream>,
): Promise<void> {
  switch (extname(out)) {
    case '.pdf':
      return pipeline(pdf(), createWriteStream(out));
    case '.json':
      return writeFile(out, `${JSON.stringify(jsonOf(content), null, 2)}\n`);
    case '.csv': {
      const tables = tablesOf(content);
      const table = wanted === undefined ? tables[0] : tables.find(({ name }) => name === wanted);
      if (table === undefined)
        throw new Refusal(`there is no such table; --table is one of ${tables.map(({ name }) => name).join(', ')}.`);
      return writeFile(out, csvOf(table));
    }
    default:
      throw new Refusal(`--out is "${out}"; it must end in .pdf, .csv, .json or .jsonld.`);
  }
}
