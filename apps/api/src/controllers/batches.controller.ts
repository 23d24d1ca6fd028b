import { Controller, Get, Param, Query, UseGuards } from '@nestjs/common';
import { z } from 'zod';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import type { Language } from '@furrowmark/rules';
import { notFound, queryOf, Spoken, uuidOf } from '../http/index.ts';
import { BatchList, Views } from '../views/index.ts';
import { cursor, cursorTo } from './cursor.ts';
import { count, dayOrInstant, instant, limit, rangeIn } from './parameters.ts';

export const batchesQuery = z.strictObject({
  phase: z.enum(['open', 'filled', 'aerating', 'brewing', 'holding', 'closed', 'reviewed']).optional(),
  /** Only batches with something happening in that time: days of the operation's zone (both inclusive) or instants. */
  from: dayOrInstant.optional(),
  to: dayOrInstant.optional(),
  after: cursor(2)
    .refine(
      ([at, id]) => (at === '' || !Number.isNaN(Date.parse(at ?? ''))) && uuidOf(id) !== null,
      'must be the "next" of the page before',
    )
    .optional(),
  limit,
});
export const batchQuery = z.strictObject({
  at: instant.optional(),
  knownAt: instant.optional(),
  asOfSeq: count.optional(),
  /** With each signature the outcomes that it was given on. */
  asSigned: z.enum(['true', 'false']).optional(),
});

@Controller('api/v1/operations/:operationId/batches')
@UseGuards(OfOperation)
export class BatchesController {
  constructor(
    private readonly batches: BatchList,
    private readonly views: Views,
  ) {}

  @Get()
  async list(@CallingMember() member: Member, @Query() query: unknown): Promise<object> {
    const { phase, after, limit: most, ...range } = queryOf(batchesQuery, query);
    const zone = await this.views.timeZone(member.operationId);
    const [at, id] = after ?? [];
    const { batches, asOfSeq, more } = await this.batches.list(member.operationId, {
      phase,
      ...rangeIn(zone, range, member.reads),
      after: at === undefined || id === undefined ? undefined : { at: at === '' ? '-infinity' : at, id },
      limit: most,
    });
    const last = batches.at(-1);
    return { batches, asOfSeq, next: more && last ? cursorTo([last.from ?? '', last.batchId]) : null };
  }

  @Get(':batchId')
  async one(
    @CallingMember() member: Member,
    @Param('batchId') batchId: string,
    @Query() query: unknown,
    @Spoken() language: Language,
  ): Promise<object> {
    const { asSigned, ...viewpoint } = queryOf(batchQuery, query);
    const id = uuidOf(batchId);
    const found =
      id === null
        ? null
        : await this.views.batch(member.operationId, id, { ...viewpoint, asSigned: asSigned === 'true', language });
    if (found === null) throw notFound();
    return found;
  }
}
