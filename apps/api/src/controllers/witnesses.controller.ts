import { Controller, Delete, Get, HttpCode, Param, Post, UseGuards } from '@nestjs/common';
import { z } from 'zod';
import { CallingMember, KeepsLog, OfOperation, type Member } from '../access/index.ts';
import { Post as Mail, Witnesses, type Witness } from '../archive/index.ts';
import { bodyOf, JsonBody, notFound, uuidOf } from '../http/index.ts';

export const newWitness = z.strictObject({
  /** An e-mail address. It is kept beside the log, never in it. */
  address: z.email().max(254),
  everyDays: z.number().int().min(1).max(366).default(30),
});

/** Who outside is sent checkpoints of the log. */
@Controller('api/v1/operations/:operationId/log/witnesses')
@UseGuards(OfOperation, KeepsLog)
export class WitnessesController {
  constructor(
    private readonly witnesses: Witnesses,
    private readonly mail: Mail,
  ) {}

  /** `mail` is false where no mail server was named: nothing goes out then. */
  @Get()
  async list(@CallingMember() { operationId }: Member): Promise<object> {
    return { witnesses: await this.witnesses.list(operationId), mail: this.mail.possible };
  }

  @Post()
  add(@CallingMember() member: Member, @JsonBody() body: unknown): Promise<Witness> {
    const { address, everyDays } = bodyOf(newWitness, body);
    return this.witnesses.add(member, address, everyDays);
  }

  @Delete(':witnessId')
  @HttpCode(204)
  async end(@CallingMember() { operationId }: Member, @Param('witnessId') text: string): Promise<void> {
    const witnessId = uuidOf(text);
    if (witnessId === null) throw notFound();
    await this.witnesses.end(operationId, witnessId);
  }
}
