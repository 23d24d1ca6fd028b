import { createWriteStream } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { extname } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { reportKind, reportKinds } from '@furrowmark/reports';
import { codeOf } from '../error-code.ts';
import { isForm, reportFile, ReportNotMade, Reports, type ReportFile } from '../reports/index.ts';
import { Refusal, type Command } from './command.ts';
import { named } from './named.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { options } from './options.ts';
import { ProgressBar } from './progress-bar.ts';

const things = ['batch', 'lot', 'field', 'harvest'] as const;
const others = ['from', 'to', 'on', 'since', 'direction', 'gln', 'gtin'] as const;
const isLanguage = (text: string): text is 'en' | 'es' => text === 'en' || text === 'es';
const isPaper = (text: string): text is 'letter' | 'a4' => text === 'letter' || text === 'a4';

export const report: Command = {
  verb: 'report',
  usage:
    'KIND --operation ID [--batch|--lot|--field|--harvest CODE] [--from DAY --to DAY|--on DAY|--since DAY] [--direction forward|backward] [--table NAME] [--language en|es] [--paper letter|a4] --out FILE.pdf|.csv|.json|.jsonld',
  purpose: `Writes a report, and shows how far it is: --on is stock’s day, --since that of changes, --direction a lot’s trace, --table one table as CSV. Exit codes: 0 written, 65 not as it was asked for, 74 the file cannot be written, 130 interrupted (nothing is left behind). Kinds: ${reportKinds.map(({ kind }) => kind).join(', ')}.`,
  async run(args) {
    const { given, rest } = options(args, ['operation', 'out', 'language', 'paper', 'table', ...things, ...others]);
    const [kind, ...more] = rest;
    if (kind === undefined || more.length > 0)
      throw new Refusal('one kind of report is needed; `help report` lists them.');
    if (reportKind(kind) === undefined)
      throw new Refusal(`there is no report "${kind}". There are: ${reportKinds.map((each) => each.kind).join(', ')}.`);
    const { out, language = 'en', paper = 'letter' } = given;
    if (out === undefined) throw new Refusal('--out FILE is needed; it ends in .pdf, .csv, .json or .jsonld.');
    if (!isLanguage(language)) throw new Refusal(`--language is "${language}"; it must be en or es.`);
    if (!isPaper(paper)) throw new Refusal(`--paper is "${paper}"; it must be letter or a4.`);
    const form = extname(out).slice(1);
    if (!isForm(form)) throw new Refusal(`--out is "${out}"; it must end in .pdf, .csv, .json or .jsonld.`);
    const operationId = operationIdOf(given.operation);
    const { table } = given;
    return withOperation(operationId, async ({ context }) => {
      const parameters: Record<string, string> = {};
      for (const name of others) if (given[name] !== undefined) parameters[name] = given[name];
      for (const thing of things) {
        const code = given[thing];
        if (code !== undefined) parameters[thing] = await named(context, operationId, thing, code);
      }
      const asked = { kind, form, language, paper, parameters, table };
      const bar = new ProgressBar(kind);
      try {
        const file = await reportFile(context.get(Reports), operationId, asked, (share) => bar.show(share));
        await whole(out, file);
      } catch (error) {
        bar.end();
        if (error instanceof ReportNotMade) throw new Refusal(error.message);
        if (error instanceof Interrupted) return 130;
        const why = unwritable[codeOf(error) ?? ''];
        if (why === undefined) throw error;
        console.error(`furrowmark report: ${out}: ${why}`);
        return 74;
      }
      bar.end();
      console.log(out);
      return 0;
    });
  },
};

/** What keeps a file from being written, by the system's name for it. */
const unwritable: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder.',
  ENOTDIR: 'there is no such folder.',
  EISDIR: 'this is a folder.',
  EACCES: 'may not be written.',
  EROFS: 'may not be written.',
  ENOSPC: 'the disk is full.',
  EDQUOT: 'the disk is full.',
};

class Interrupted extends Error {
  override readonly name = 'Interrupted';
}

/** Writes beside the place and moves it there when all is written: half a report never looks like a whole one. */
async function whole(out: string, file: ReportFile): Promise<void> {
  const beside = `${out}.part`;
  const stop = new AbortController();
  const interrupt = (): void => stop.abort();
  process.once('SIGINT', interrupt).once('SIGTERM', interrupt);
  try {
    await pipeline(file.bytes(), createWriteStream(beside), { signal: stop.signal });
    await rename(beside, out);
  } catch (error) {
    await rm(beside, { force: true });
    throw stop.signal.aborted ? new Interrupted() : error;
  } finally {
    process.off('SIGINT', interrupt).off('SIGTERM', interrupt);
  }
}
