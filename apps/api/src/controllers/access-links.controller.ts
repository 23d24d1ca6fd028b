import { Controller, Delete, Get, HttpCode, Param, Post, Query, Req, UseGuards } from '@nestjs/common';
import { isDate } from '@furrowmark/domain';
import type { Request } from 'express';
import { z } from 'zod';
import { CallingMember, Manages, OfOperation, type Member } from '../access/index.ts';
import { Phones, ReadingLinks } from '../granting/index.ts';
import { bodyOf, JsonBody, notFound, queryOf, uuidOf } from '../http/index.ts';
import { reasonQuery } from './members.controller.ts';

const day = z.string().refine(isDate, 'must be a day that exists, such as 2026-06-03');
const uuid = z.string().regex(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/, 'must be a UUID in lower case');
export const newLink = z.strictObject({
  /** What for. Not a person's name: it is recorded. */
  purpose: z.string().trim().min(1).max(200).optional(),
  inspectionId: uuid.optional(),
  /** The first and last day that may be read; since the last inspection, where left out. */
  from: day.optional(),
  until: day.optional(),
  lifeDays: z.number().int().min(1).max(90).default(30),
});
export const newPhone = z.strictObject({ label: z.string().trim().min(1).max(100) });

/** Reading links for somebody outside, and the phones that people share. Both are a manager's to give and to take. */
@Controller('api/v1/operations/:operationId')
@UseGuards(OfOperation, Manages)
export class AccessLinksController {
  constructor(
    private readonly links: ReadingLinks,
    private readonly phones: Phones,
  ) {}

  @Get('access-links')
  async list(@CallingMember() { operationId }: Member): Promise<object> {
    return { links: await this.links.list(operationId) };
  }

  /** A link that only reads, for a while and a period. It opens at the inspector's page; its secret stands behind the `#`, which no server ever sees. */
  @Post('access-links')
  async make(@CallingMember() member: Member, @JsonBody() body: unknown, @Req() request: Request): Promise<object> {
    const { token, expiresAt, ...made } = await this.links.make(member, bodyOf(newLink, body));
    const url = `${request.protocol}://${request.get('host') ?? ''}/inspection#token=${token}&operation=${member.operationId}`;
    return { ...made, expiresAt: expiresAt.toISOString(), token, url };
  }

  @Delete('access-links/:accessId')
  @HttpCode(204)
  async withdraw(
    @CallingMember() member: Member,
    @Param('accessId') accessId: string,
    @Query() query: unknown,
  ): Promise<void> {
    await this.links.withdraw(member, idOf(accessId), queryOf(reasonQuery, query).reason);
  }

  @Get('phones')
  async listPhones(@CallingMember() { operationId }: Member): Promise<object> {
    return { phones: await this.phones.list(operationId) };
  }

  /** A phone that several people share; its token is shown this once. */
  @Post('phones')
  async addPhone(@CallingMember() member: Member, @JsonBody() body: unknown): Promise<object> {
    const { expiresAt, ...made } = await this.phones.add(member, bodyOf(newPhone, body).label);
    return { ...made, expiresAt: expiresAt?.toISOString() ?? null };
  }

  @Delete('phones/:tokenId')
  @HttpCode(204)
  async withdrawPhone(
    @CallingMember() member: Member,
    @Param('tokenId') tokenId: string,
    @Query() query: unknown,
  ): Promise<void> {
    await this.phones.withdraw(member, idOf(tokenId), queryOf(reasonQuery, query).reason);
  }
}

function idOf(text: string): string {
  const id = uuidOf(text);
  if (id === null) throw notFound();
  return id;
}
