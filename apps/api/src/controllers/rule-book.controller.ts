import { Controller, Get, HttpCode, Post, Query, UseGuards } from '@nestjs/common';
import { faultsOf } from '@furrowmark/rules';
import { z } from 'zod';
import { CallingMember, Manages, OfOperation, type Member } from '../access/index.ts';
import { bodyOf, JsonBody, ProblemAnswer, queryOf } from '../http/index.ts';
import { RuleUpgrades, Views } from '../views/index.ts';
import { dayOrInstant, instant, rangeIn } from './parameters.ts';

export const ruleBookQuery = z.strictObject({ at: instant.optional() });
export const previewBody = z.strictObject({
  entries: z
    .array(
      z.strictObject({
        ruleId: z.string(),
        enabled: z.boolean().optional(),
        severity: z.enum(['notice', 'minor', 'major', 'critical']).optional(),
        parameters: z.record(z.string(), z.unknown()).optional(),
        inSystemPlan: z.boolean().optional(),
        certifierReference: z.string().optional(),
      }),
    )
    .max(1000),
  from: dayOrInstant.optional(),
  to: dayOrInstant.optional(),
});

@Controller('api/v1/operations/:operationId/rule-book')
@UseGuards(OfOperation)
export class RuleBookController {
  constructor(
    private readonly views: Views,
    private readonly upgrades: RuleUpgrades,
  ) {}

  @Get()
  book(@CallingMember() member: Member, @Query() query: unknown): Promise<object> {
    return this.views.ruleBook(member.operationId, queryOf(ruleBookQuery, query).at);
  }

  /** A rule book to begin with, as entries to adopt; and the rules that are not judged now, and why. */
  @Get('starter')
  starter(@CallingMember() member: Member): Promise<object> {
    return this.views.starterBook(member.operationId);
  }

  /** What versions of the program with other rules judged otherwise, each when it first started. */
  @Get('upgrades')
  @UseGuards(Manages)
  async upgraded(@CallingMember() member: Member): Promise<object> {
    return { upgrades: await this.upgrades.list(member.operationId) };
  }

  /** What would be judged otherwise with these entries; nothing is recorded. */
  @Post('preview')
  @HttpCode(200)
  async preview(@CallingMember() member: Member, @JsonBody() body: unknown): Promise<object> {
    const { entries, ...range } = bodyOf(previewBody, body);
    const errors = entries.flatMap((entry, i) =>
      faultsOf([entry]).map((detail) => ({ pointer: `/entries/${i}`, detail })),
    );
    if (errors.length > 0) throw new ProblemAnswer('invalid-body', errors[0]?.detail ?? '', errors);
    const zone = await this.views.timeZone(member.operationId);
    return this.views.previewRuleBook(member.operationId, entries, rangeIn(zone, range));
  }
}
