import { Controller, Delete, Get, HttpCode, Param, Post, Put, UseGuards } from '@nestjs/common';
import { Throttle } from '../http/throttle.ts';
import { z } from 'zod';
import { AtDesk, Caller, InPerson, OwnTokens, SignedIn, SignIn, type Person, type Via } from '../access/index.ts';
import { bodyOf, JsonBody, notFound, ProblemAnswer, uuidOf } from '../http/index.ts';

export const passwordBody = z.strictObject({
  /** The password as it is now; not needed by who has none yet. */
  current: z.string().max(1000).optional(),
  password: z.string().max(1000),
  /** The name to sign in with, where there is none yet or it is to be another. */
  login: z.string().max(200).optional(),
  /** Ends the person's phones and programs as well. */
  everywhere: z.boolean().default(false),
});
const label = z.string().trim().min(1).max(100);
export const deviceBody = z.strictObject({ label });
export const machineBody = z.strictObject({
  label,
  operationId: z.string(),
  role: z.enum(['inspector', 'recorder', 'reviewer']),
  lifeDays: z.number().int().min(1).max(366).default(90),
});

type SignedInPerson = Person & { readonly via: Via };

/** A person's own affairs: password, phones, tokens for programs. */
@Controller('api/v1/account')
@UseGuards(SignedIn, InPerson)
export class AccountController {
  constructor(
    private readonly signIns: SignIn,
    private readonly tokens: OwnTokens,
  ) {}

  /** Sets or changes the password; every other session of the person ends, on request every other token too. */
  @Put('password')
  @HttpCode(204)
  @UseGuards(Throttle)
  async password(@Caller() person: SignedInPerson, @JsonBody() body: unknown): Promise<void> {
    const { current, ...next } = bodyOf(passwordBody, body);
    const known = await this.signIns.credentialOf(person.accountId);
    if (known === null && person.via.kind === 'device') {
      // As with further tokens: whoever found the phone would keep the password when the phone's own token is withdrawn.
      throw new ProblemAnswer('forbidden', 'The first password is chosen at the desk, not on a phone.');
    }
    if (known !== null && !(await this.signIns.reauthenticate(person.accountId, current ?? ''))) {
      throw new ProblemAnswer('forbidden', 'The present password is not right. Nothing was changed.', [
        { pointer: '/current', detail: 'is not right' },
      ]);
    }
    await this.signIns.setPassword(person, next);
  }

  /** Everything the person is signed in with. */
  @Get('tokens')
  async list(@Caller() person: SignedInPerson): Promise<object> {
    return { tokens: await this.tokens.list(person), current: person.via.tokenId };
  }

  /** A token for one of the person's phones: ninety days, renewed with every use. */
  @Post('devices')
  @UseGuards(AtDesk)
  async device(@Caller() person: SignedInPerson, @JsonBody() body: unknown): Promise<object> {
    return shown(await this.tokens.addDevice(person, bodyOf(deviceBody, body).label));
  }

  /** A token for a program: one operation, at most one role, a last day. */
  @Post('tokens')
  @UseGuards(AtDesk)
  async machine(@Caller() person: SignedInPerson, @JsonBody() body: unknown): Promise<object> {
    return shown(await this.tokens.addMachine(person, bodyOf(machineBody, body)));
  }

  /** A phone ends its own token only: whoever found it would else put its person out of every other device. */
  @Delete('tokens/:tokenId')
  @HttpCode(204)
  async withdraw(@Caller() person: SignedInPerson, @Param('tokenId') tokenId: string): Promise<void> {
    const id = uuidOf(tokenId);
    if (id === null) throw notFound();
    if (person.via.kind === 'device' && person.via.tokenId !== id)
      throw new ProblemAnswer(
        'forbidden',
        'A phone withdraws its own token only. The others are withdrawn at the desk.',
      );
    await this.tokens.withdraw(person, id);
  }
}

/** A new token, shown this once. */
const shown = ({ token, tokenId, expiresAt }: { token: string; tokenId: string; expiresAt: Date | null }): object => ({
  tokenId,
  token,
  expiresAt: expiresAt?.toISOString() ?? null,
});
