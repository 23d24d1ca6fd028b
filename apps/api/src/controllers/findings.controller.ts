import { Controller, Get, Query, UseGuards } from '@nestjs/common';
import { z } from 'zod';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import type { Language } from '@furrowmark/rules';
import { queryOf, Spoken } from '../http/index.ts';
import { outcomeJson, Views } from '../views/index.ts';
import { cursor, cursorTo } from './cursor.ts';
import { dayOrInstant, limit, rangeIn } from './parameters.ts';

export const findingsQuery = z.strictObject({
  state: z.enum(['open', 'answered', 'resolved', 'all']).default('open'),
  severity: z.enum(['notice', 'minor', 'major', 'critical']).optional(),
  basis: z.enum(['regulation', 'certifier', 'guideline', 'ownPlan', 'practice']).optional(),
  ruleId: z.string().max(100).optional(),
  /** When it came to be so: days of the operation's zone (both inclusive) or instants. */
  from: dayOrInstant.optional(),
  to: dayOrInstant.optional(),
  after: cursor(2).optional(),
  limit,
});

@Controller('api/v1/operations/:operationId/findings')
@UseGuards(OfOperation)
export class FindingsController {
  constructor(private readonly views: Views) {}

  @Get()
  async list(@CallingMember() member: Member, @Query() query: unknown, @Spoken() language: Language): Promise<object> {
    const asked = queryOf(findingsQuery, query);
    const { findings, timeZone, asOfSeq } = await this.views.findings(member.operationId);
    const { from = -Infinity, to = Infinity } = rangeIn(timeZone, asked, member.reads);
    const bounded = asked.from !== undefined || asked.to !== undefined || member.reads !== undefined;
    const within = (since: string | null): boolean =>
      since === null ? !bounded : Date.parse(since) >= from && Date.parse(since) < to;
    const [since = '', id = ''] = asked.after ?? [];
    const rest = findings.filter(
      (finding) =>
        (asked.state === 'all' || finding.state === asked.state) &&
        (asked.severity === undefined || finding.severity === asked.severity) &&
        (asked.basis === undefined || finding.basis === asked.basis) &&
        (asked.ruleId === undefined || finding.ruleId === asked.ruleId) &&
        within(finding.since) &&
        (asked.after === undefined || isAfter([finding.since ?? '', finding.findingId], [since, id])),
    );
    const page = rest.slice(0, asked.limit);
    const last = page.at(-1);
    const next = rest.length > page.length && last ? cursorTo([last.since ?? '', last.findingId]) : null;
    return { findings: page.map((finding) => outcomeJson(finding, language)), asOfSeq, next };
  }
}

const isAfter = ([a, b]: readonly [string, string], [c, d]: readonly [string, string]): boolean =>
  a > c || (a === c && b > d);
