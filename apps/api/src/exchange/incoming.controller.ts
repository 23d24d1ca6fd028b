import { Controller, HttpCode, Post, UseGuards } from '@nestjs/common';
import { importRequest, type ImportPreview } from '@furrowmark/reports';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { bodyOf, JsonBody } from '../http/index.ts';
import { Incoming } from './incoming.ts';

/** What a file would become. Whoever accepts appends the rows' records as any others. */
@Controller('api/v1/operations/:operationId/import')
@UseGuards(OfOperation)
export class IncomingController {
  constructor(private readonly incoming: Incoming) {}

  @Post('preview')
  @HttpCode(200)
  preview(@CallingMember() { operationId }: Member, @JsonBody() body: unknown): Promise<ImportPreview> {
    return this.incoming.preview(operationId, bodyOf(importRequest, body));
  }
}
