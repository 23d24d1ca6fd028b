import { Readable } from 'node:stream';
import { pdfStream, type Paper } from '@furrowmark/pdf';
import { csvOf, isRefusal, jsonOf, tablesOf, type ReportContent, type ReportRefusal } from '@furrowmark/reports';
import type { ReportRequest, Reports } from './reports.ts';

/** The forms that reports come in, by the ending of a file's name. */
export const forms = {
  json: 'application/json',
  pdf: 'application/pdf',
  csv: 'text/csv',
  jsonld: 'application/ld+json',
} as const;
export type Form = keyof typeof forms;
export const isForm = (text: string): text is Form => Object.hasOwn(forms, text);

/** A report that is to become a file. */
export interface FileRequest extends ReportRequest {
  readonly form: Form;
  readonly paper: Paper;
  /** Which table as CSV; the first, where left out. */
  readonly table?: string | undefined;
}

export interface ReportFile {
  readonly name: string;
  /** How many records the log had; null where the form does not say. */
  readonly logSize: number | null;
  /** The bytes, made as they are read. */
  bytes(): Readable;
}

/** Nothing came of a report, for a reason that whoever asked can mend: the message is theirs to read. */
export class ReportNotMade extends Error {
  override readonly name = 'ReportNotMade';
}

/** Telling what is ready: the records are read and judged, then it is put on paper. */
const contentShare = 0.1;

/** A report as a file. `progress` is told from 0 to 1 while the bytes are made. Rejects with {@link ReportNotMade}. */
export async function reportFile(
  reports: Reports,
  operationId: string,
  request: FileRequest,
  progress: (share: number) => void = () => undefined,
): Promise<ReportFile> {
  progress(0);
  const { kind, form, paper, table } = request;
  if (form === 'jsonld') {
    const data = madeOf(kind, await reports.linkedData(operationId, request));
    return { name: `${kind}.jsonld`, logSize: null, bytes: () => text(JSON.stringify(data)) };
  }
  const { content, preparedAt } = madeOf(kind, await reports.content(operationId, request));
  progress(contentShare);
  const named = { name: `${fileName(content)}.${form}`, logSize: content.log.size };
  if (form === 'json') return { ...named, bytes: () => text(JSON.stringify(jsonOf(content))) };
  if (form === 'csv') {
    const tables = tablesOf(content);
    const found = table === undefined ? tables[0] : tables.find((each) => each.name === table);
    if (found === undefined) {
      const names = tables.map((each) => each.name).join(', ');
      throw new ReportNotMade(`There is no such table in this report. There are: ${names}.`);
    }
    return { ...named, bytes: () => text(csvOf(found)) };
  }
  const onPaper = (share: number): void => progress(contentShare + (1 - contentShare) * share);
  return { ...named, bytes: () => pdfStream(content, { paper, createdAt: preparedAt, progress: onPaper }) };
}

function madeOf<T extends object>(kind: string, made: T | ReportRefusal | null): T {
  if (made === null) throw new ReportNotMade(`There is no report "${kind}" in this form.`);
  if (!isRefusal(made)) return made;
  if (made.reason === 'unknown') throw new ReportNotMade('What it should be about is not known.');
  throw new ReportNotMade(made.faults.map(({ parameter, detail }) => `${parameter} ${detail}`).join('; '));
}

const text = (all: string): Readable => Readable.from([Buffer.from(all, 'utf8')], { objectMode: false });

/** A report's name as the name of a file: plain letters, digits and hyphens. */
export const fileName = ({ kind, title }: ReportContent): string =>
  `${kind}-${title}`
    .normalize('NFKD')
    .replaceAll(/[^A-Za-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '')
    .slice(0, 80)
    .toLowerCase();
