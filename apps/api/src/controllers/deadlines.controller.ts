import { Controller, Get, UseGuards } from '@nestjs/common';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { Deadlines } from '../views/index.ts';

/** What is to be done by when, the earliest first. */
@Controller('api/v1/operations/:operationId/deadlines')
@UseGuards(OfOperation)
export class DeadlinesController {
  constructor(private readonly deadlines: Deadlines) {}

  @Get()
  async list(@CallingMember() { operationId }: Member): Promise<object> {
    return { deadlines: await this.deadlines.list(operationId) };
  }
}
