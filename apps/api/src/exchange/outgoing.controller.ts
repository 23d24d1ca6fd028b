import { Controller, Get, Query, Req, Res, UseGuards } from '@nestjs/common';
import { isDate } from '@furrowmark/domain';
import type { Request, Response } from 'express';
import { z } from 'zod';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { queryOf } from '../http/index.ts';
import { Outgoing } from './outgoing.ts';

const day = z.string().refine(isDate, 'must be a day that exists, such as 2026-06-03');
/** Local days, both inclusive; without them, all applications there are. */
export const fieldsQuery = z
  .strictObject({ from: day.optional(), to: day.optional() })
  .refine(({ from, to }) => from === undefined || to === undefined || from <= to, {
    message: 'must not lie after `to`',
    path: ['from'],
  });
export const calendarQuery = z.strictObject({ language: z.enum(['en', 'es']).optional() });

/** The operation's data in other people's formats. */
@Controller('api/v1/operations/:operationId')
@UseGuards(OfOperation)
export class OutgoingController {
  constructor(private readonly outgoing: Outgoing) {}

  /** Fields with their applications (RFC 7946). */
  @Get('fields.geojson')
  async fields(
    @CallingMember() { operationId }: Member,
    @Query() query: unknown,
    @Res() response: Response,
  ): Promise<void> {
    const map = await this.outgoing.fields(operationId, queryOf(fieldsQuery, query));
    response.setHeader('Content-Disposition', 'inline; filename="fields.geojson"');
    response.type('application/geo+json').send(JSON.stringify(map));
  }

  /** What is due (RFC 5545). */
  @Get('deadlines.ics')
  async calendar(
    @CallingMember() { operationId }: Member,
    @Query() query: unknown,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const { language } = queryOf(calendarQuery, query);
    const spoken = language ?? (request.acceptsLanguages('en', 'es') === 'es' ? 'es' : 'en');
    const text = await this.outgoing.calendar(operationId, spoken);
    response.setHeader('Content-Disposition', 'inline; filename="deadlines.ics"');
    response.setHeader('Content-Language', spoken);
    response.type('text/calendar; charset=utf-8').send(text);
  }
}
