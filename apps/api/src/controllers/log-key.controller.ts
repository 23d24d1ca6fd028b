import { Controller, HttpCode, Post, UseGuards } from '@nestjs/common';
import { z } from 'zod';
import { CallingMember, KeepsLog, OfOperation, type Member } from '../access/index.ts';
import { KeyChange, type KeyChanged } from '../archive/index.ts';
import { bodyOf, JsonBody } from '../http/index.ts';

const reason = z.string().trim().min(1).max(500);
export const keyReplacement = z.strictObject({ reason });
export const takeOver = z.strictObject({ reason: reason.optional() });

/** The key under which an operation's log is signed. Both ways to change it are recorded. */
@Controller('api/v1/operations/:operationId')
@UseGuards(OfOperation, KeepsLog)
export class LogKeyController {
  constructor(private readonly changes: KeyChange) {}

  @Post('log/key')
  @HttpCode(200)
  replace(@CallingMember() { accountId, operationId }: Member, @JsonBody() body: unknown): Promise<KeyChanged> {
    return this.changes.replace(accountId, operationId, bodyOf(keyReplacement, body).reason);
  }

  /** An imported log is carried on here from now on. */
  @Post('take-over')
  @HttpCode(200)
  takeOver(@CallingMember() { accountId, operationId }: Member, @JsonBody() body: unknown): Promise<KeyChanged> {
    return this.changes.takeOver(accountId, operationId, bodyOf(takeOver, body).reason);
  }
}
