import { Controller, HttpCode, Post, UseGuards } from '@nestjs/common';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { prepare } from '../append/index.ts';
import { Clock } from '../clock.ts';
import type { Language } from '@furrowmark/rules';
import { JsonBody, Spoken } from '../http/index.ts';
import { Views } from '../views/index.ts';
import { recordsOf } from './append.controller.ts';

/** What records would break or come near, were they recorded. Nothing is. */
@Controller('api/v1/operations/:operationId/check')
@UseGuards(OfOperation)
export class CheckController {
  constructor(
    private readonly views: Views,
    private readonly clock: Clock,
  ) {}

  @Post()
  @HttpCode(200)
  async check(
    @CallingMember() member: Member,
    @JsonBody() body: unknown,
    @Spoken() language: Language,
  ): Promise<object> {
    const entries = prepare(recordsOf(body), member, this.clock.now());
    const drafts = entries.flatMap((entry) => (entry.status === 'prepared' ? [entry.draft] : []));
    const { outcomes, asOfSeq } = await this.views.check(member.operationId, drafts, language);
    // What would not be recorded at all is told in the words of an append.
    return { outcomes, refused: entries.filter(({ status }) => status === 'refused'), asOfSeq };
  }
}
