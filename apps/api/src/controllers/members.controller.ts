import { Controller, Delete, Get, HttpCode, Param, Post, Put, Query, UseGuards } from '@nestjs/common';
import { z } from 'zod';
import { CallingMember, Manages, OfOperation, role, SetsPin, type Member } from '../access/index.ts';
import { Invitations, Memberships } from '../granting/index.ts';
import { bodyOf, JsonBody, notFound, queryOf, uuidOf } from '../http/index.ts';

const name = z.string().trim().min(1).max(200);
export const newMember = z.strictObject({
  name,
  role,
  /** For someone who uses shared phones only. Without it an invitation is made. */
  pin: z.string().max(20).optional(),
});
export const roleBody = z.strictObject({ role });
export const pinOfMember = z.strictObject({ pin: z.string().max(20) });
export const reasonQuery = z.strictObject({ reason: z.string().trim().min(1).max(200).optional() });

/** Who may do what in an operation. Every change is a record of its log. */
@Controller('api/v1/operations/:operationId')
@UseGuards(OfOperation)
export class MembersController {
  constructor(
    private readonly memberships: Memberships,
    private readonly invitations: Invitations,
  ) {}

  /** Everybody who is or was a member, with the names to the account ids in records. */
  @Get('members')
  async list(@CallingMember() { operationId }: Member): Promise<object> {
    return { members: await this.memberships.list(operationId) };
  }

  /** Invites a person (the answer's secret is handed over by the manager), or adds one who only uses a PIN. */
  @Post('members')
  @UseGuards(Manages)
  async add(@CallingMember() member: Member, @JsonBody() body: unknown): Promise<object> {
    const { pin, ...input } = bodyOf(newMember, body);
    if (pin !== undefined) return { accountId: await this.memberships.addWithPin(member, { ...input, pin }) };
    const { operationId, accountId: madeBy } = member;
    const { expiresAt, ...made } = await this.invitations.make({ ...input, operationId, madeBy });
    return { ...made, expiresAt: expiresAt.toISOString() };
  }

  @Put('members/:accountId')
  @HttpCode(204)
  @UseGuards(Manages)
  async change(
    @CallingMember() member: Member,
    @Param('accountId') accountId: string,
    @JsonBody() body: unknown,
  ): Promise<void> {
    await this.memberships.changeRole(member, idOf(accountId), bodyOf(roleBody, body).role);
  }

  @Delete('members/:accountId')
  @HttpCode(204)
  @UseGuards(Manages)
  async withdraw(
    @CallingMember() member: Member,
    @Param('accountId') accountId: string,
    @Query() query: unknown,
  ): Promise<void> {
    await this.memberships.withdraw(member, idOf(accountId), queryOf(reasonQuery, query).reason);
  }

  /** A PIN for the operation's shared phones: one's own, or a member's where a manager sets it. */
  @Put('members/:accountId/pin')
  @HttpCode(204)
  @UseGuards(SetsPin)
  async pin(
    @CallingMember() member: Member,
    @Param('accountId') accountId: string,
    @JsonBody() body: unknown,
  ): Promise<void> {
    await this.memberships.setPin(member.operationId, idOf(accountId), bodyOf(pinOfMember, body).pin);
  }

  /** Takes the PIN away: on shared phones the person signs in no more. */
  @Delete('members/:accountId/pin')
  @HttpCode(204)
  @UseGuards(SetsPin)
  async removePin(@CallingMember() member: Member, @Param('accountId') accountId: string): Promise<void> {
    await this.memberships.removePin(member.operationId, idOf(accountId));
  }

  @Get('invitations')
  @UseGuards(Manages)
  async open(@CallingMember() { operationId }: Member): Promise<object> {
    return { invitations: await this.invitations.open(operationId) };
  }

  @Delete('invitations/:invitationId')
  @HttpCode(204)
  @UseGuards(Manages)
  async takeBack(@CallingMember() { operationId }: Member, @Param('invitationId') id: string): Promise<void> {
    await this.invitations.withdraw(operationId, idOf(id));
  }
}

function idOf(text: string): string {
  const id = uuidOf(text);
  if (id === null) throw notFound();
  return id;
}
