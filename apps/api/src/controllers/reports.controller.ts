import { pipeline } from 'node:stream/promises';
import { Controller, Get, Param, Query, Req, Res, UseGuards } from '@nestjs/common';
import type { Request, Response } from 'express';
import { pdfStream, type Paper } from '@furrowmark/pdf';
import {
  csvOf,
  isRefusal,
  jsonOf,
  reportKind,
  reportKinds,
  tablesOf,
  type ReportContent,
  type ReportKind,
  type ReportRefusal,
} from '@furrowmark/reports';
import { z } from 'zod';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { notFound, ProblemAnswer, queryOf, underShortNames } from '../http/index.ts';
import { fileName, forms, isForm, Reports, type Form } from '../reports/index.ts';

/** What every report takes; the rest are the kind's own parameters. */
export const reportQuery = z.looseObject({
  language: z.enum(['en', 'es']).optional(),
  paper: z.enum(['letter', 'a4']).default('letter'),
  /** Which table as CSV; the first, where left out. */
  table: z.string().max(100).optional(),
});

const allForms: readonly Form[] = ['json', 'pdf', 'csv', 'jsonld'];

/** The forms that a kind comes in: linked data is something of its own. */
export const formsOf = ({ linkedData }: ReportKind): readonly Form[] =>
  allForms.filter((form) => form !== 'jsonld' || linkedData !== undefined);

@Controller('api/v1/operations/:operationId/reports')
@UseGuards(OfOperation)
export class ReportsController {
  constructor(private readonly reports: Reports) {}

  /** The kinds of report there are. */
  @Get()
  list(): object {
    return { reports: reportKinds.map((each) => ({ kind: each.kind, title: each.title, forms: formsOf(each) })) };
  }

  @Get(':name')
  async one(
    @CallingMember() member: Member,
    @Param('name') name: string,
    @Query() query: unknown,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const { kind, form } = askedFor(name, request);
    const { language, paper, table, ...named } = queryOf(reportQuery, query);
    const parameters = underShortNames(named);
    const spoken = language ?? (request.acceptsLanguages('en', 'es') === 'es' ? 'es' : 'en');
    const asked = { kind, language: spoken, parameters, origin: `${request.protocol}://${request.host}` };
    if (form === 'jsonld') {
      const data = madeOf(await this.reports.linkedData(member.operationId, asked));
      response.vary('Accept').setHeader('Content-Disposition', `inline; filename="${kind}.jsonld"`);
      response.type(forms.jsonld).send(JSON.stringify(data));
      return;
    }
    const made = madeOf(await this.reports.content(member.operationId, asked));
    response.setHeader('Content-Language', spoken);
    response.vary('Accept').vary('Accept-Language');
    response.setHeader('Content-Disposition', `inline; filename="${fileName(made.content)}.${form}"`);
    if (form === 'json') response.json(jsonOf(made.content));
    else if (form === 'csv') sendTable(response, made.content, table);
    else await sendPdf(response, made.content, paper, made.preparedAt);
  }
}

/** What was made; ends the request where nothing was. */
function madeOf<T extends object>(made: T | ReportRefusal | null): T {
  if (made === null) throw notFound();
  if (!isRefusal(made)) return made;
  if (made.reason === 'unknown') throw notFound();
  const names = made.faults.map(({ parameter }) => parameter).join(', ');
  throw new ProblemAnswer('invalid-parameter', `Not valid: ${names}.`, made.faults);
}

/** The kind and the form: by the ending of the name, else by the Accept header. */
function askedFor(name: string, request: Request): { kind: string; form: Form } {
  const [, kind, ending] = /^(.*)\.([a-z]+)$/.exec(name) ?? [];
  if (kind !== undefined && ending !== undefined) {
    if (!isForm(ending)) throw notFound();
    return { kind, form: ending };
  }
  const known = reportKind(name);
  if (known === undefined) throw notFound();
  const offered = formsOf(known);
  const form = request.accepts([...offered]);
  if (typeof form !== 'string' || !isForm(form)) {
    const types = offered.map((each) => forms[each]).join(', ');
    throw new ProblemAnswer('not-acceptable', `This report comes as ${types}.`);
  }
  return { kind: name, form };
}

function sendTable(response: Response, content: ReportContent, name: string | undefined): void {
  const tables = tablesOf(content);
  const table = name === undefined ? tables[0] : tables.find((each) => each.name === name);
  if (table === undefined) {
    const detail = `must be one of ${tables.map((each) => each.name).join(', ')}`;
    throw new ProblemAnswer('invalid-parameter', 'There is no such table in this report.', [
      { parameter: 'table', detail },
    ]);
  }
  response.setHeader('Furrowmark-Tables', tables.map((each) => inHeader(each.name)).join(', '));
  response.type('text/csv; charset=utf-8; header=present').send(csvOf(table));
}

/** A name as a header can carry it: all but plain ASCII, and what would end it, percent-encoded (RFC 9110 §5.5). */
const inHeader = (name: string): string =>
  name.toWellFormed().replaceAll(/[^\x20-\x7e]|[%,]/gu, (each) => encodeURIComponent(each));

async function sendPdf(response: Response, content: ReportContent, paper: Paper, createdAt: Date): Promise<void> {
  response.type('application/pdf');
  await pipeline(pdfStream(content, { paper, createdAt }), response);
}
