import { Controller, Get, Query, UseGuards } from '@nestjs/common';
import { isRecordType } from '@furrowmark/domain';
import { z } from 'zod';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { queryOf } from '../http/index.ts';
import { RecordList } from '../views/index.ts';
import { count, limit, uuid } from './parameters.ts';

export const recordsQuery = z.strictObject({
  /** Only records whose `seq` is greater. */
  after: count.optional(),
  /** Only records that name this id, or that have it. */
  about: uuid.optional(),
  /** Only records of this type, or of these, separated by commas. */
  type: z
    .string()
    .transform((text) => text.split(','))
    .refine((types) => types.every(isRecordType), 'must be record types, separated by commas')
    .optional(),
  limit,
});

/** The log as recorded, in the order of `seq`. */
@Controller('api/v1/operations/:operationId/records')
@UseGuards(OfOperation)
export class RecordsController {
  constructor(private readonly records: RecordList) {}

  @Get()
  list(@CallingMember() member: Member, @Query() query: unknown): Promise<object> {
    return this.records.list(member.operationId, { ...queryOf(recordsQuery, query), within: member.reads });
  }
}
