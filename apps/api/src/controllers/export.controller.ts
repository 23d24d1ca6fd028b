import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { Controller, Get, Res, UseGuards } from '@nestjs/common';
import type { Response } from 'express';
import { packTar } from '@furrowmark/log';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { Archives } from '../archive/index.ts';

/** The whole log of an operation as one file, that anybody can check offline. */
@Controller('api/v1/operations/:operationId/export')
@UseGuards(OfOperation)
export class ExportController {
  constructor(private readonly archives: Archives) {}

  /** Names and addresses behind the seals go only to those who look after records; others get the log without them. */
  @Get()
  async export(@CallingMember() { operationId, role }: Member, @Res() response: Response): Promise<void> {
    const { files } = await this.archives.of(operationId, { openings: role !== 'recorder' });
    response.setHeader('Content-Disposition', `attachment; filename="furrowmark-${operationId}.tar"`);
    response.setHeader('Cache-Control', 'no-store');
    response.type('application/x-tar');
    await pipeline(Readable.from(packTar(files)), response);
  }
}
