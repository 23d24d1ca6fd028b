import { Controller, HttpCode, Post, UseGuards } from '@nestjs/common';
import { z } from 'zod';
import { CallingMember, CanAppend, OfOperation, type Member } from '../access/index.ts';
import { Appender, type Appended } from '../append/index.ts';
import { busy, JsonBody, ProblemAnswer, shapeOf } from '../http/index.ts';

/** Each record is read on its own, so that one bad record never blocks its neighbours. */
export const recordsBody = z.strictObject({ records: z.array(z.unknown()), sentAt: z.string().optional() });

export const mostRecords = 1_000;

@Controller('api/v1/operations/:operationId/records')
@UseGuards(OfOperation, CanAppend)
export class AppendController {
  constructor(private readonly appender: Appender) {}

  @Post()
  @HttpCode(200)
  async append(@CallingMember() member: Member, @JsonBody() body: unknown): Promise<Appended> {
    const appended = this.appender.append(member, recordsOf(body));
    if (appended === null) throw busy('Very many records are arriving just now. Send the same again.');
    return appended;
  }
}

/** The records of a request body; 422 where it is no such body or holds too many. */
export function recordsOf(body: unknown): readonly unknown[] {
  // A record with a text that cannot be kept is refused by itself; its neighbours are recorded.
  const { records } = shapeOf(recordsBody, body);
  if (records.length > mostRecords) {
    throw new ProblemAnswer(
      'too-many-records',
      `The request has ${records.length} records; at most ${mostRecords} are taken at once.`,
    );
  }
  return records;
}
