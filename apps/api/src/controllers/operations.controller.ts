import { Controller, Get, Post, UseGuards } from '@nestjs/common';
import { z } from 'zod';
import { Access, Caller, InPerson, SignedIn, type OwnOperation, type Person } from '../access/index.ts';
import { bodyOf, JsonBody, ProblemAnswer } from '../http/index.ts';
import { Operations } from '../operations.ts';

/** The members are checked with the record that they become. */
export const newOperation = z.looseObject({ name: z.string().min(1), timeZone: z.string().min(1) });

@Controller('api/v1/operations')
@UseGuards(SignedIn)
export class OperationsController {
  constructor(
    private readonly access: Access,
    private readonly operations: Operations,
  ) {}

  @Get()
  async list(@Caller() person: Person): Promise<{ operations: OwnOperation[] }> {
    return { operations: await this.access.operationsOf(person.accountId, person.via) };
  }

  @Post()
  @UseGuards(InPerson)
  async create(@Caller() person: Person, @JsonBody() body: unknown): Promise<{ operationId: string }> {
    const created = await this.operations.create(person, bodyOf(newOperation, body));
    if ('operationId' in created) return created;
    const errors = created.refused.errors.map(({ pointer, detail }) => ({
      pointer: pointer?.replace(/^\/data/, '') ?? '',
      detail,
    }));
    throw new ProblemAnswer('invalid-body', created.refused.detail, errors);
  }
}
