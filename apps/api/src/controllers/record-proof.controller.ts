import { Controller, Get, Param, Res, UseGuards } from '@nestjs/common';
import type { Response } from 'express';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { notFound, uuidOf } from '../http/index.ts';
import { LogReader } from '../log/index.ts';

/** One record with what proves its place in the log, as a file to keep (C2SP tlog-proof). */
@Controller('api/v1/operations/:operationId/records')
@UseGuards(OfOperation)
export class RecordProofController {
  constructor(private readonly log: LogReader) {}

  @Get(':recordId/proof')
  async proof(
    @CallingMember() { operationId }: Member,
    @Param('recordId') text: string,
    @Res() response: Response,
  ): Promise<void> {
    const recordId = uuidOf(text);
    const found = recordId === null ? null : await this.log.proofFile(operationId, recordId);
    if (found === null) throw notFound();
    response.setHeader('Content-Disposition', `attachment; filename="entry-${found.seq}.tlog-proof"`);
    response.type('text/plain; charset=utf-8').send(found.text);
  }
}
