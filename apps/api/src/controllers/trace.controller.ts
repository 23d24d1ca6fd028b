import { Controller, Get, Param, Query, UseGuards } from '@nestjs/common';
import { z } from 'zod';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { notFound, queryOf, uuidOf } from '../http/index.ts';
import { Views } from '../views/index.ts';

export const traceQuery = z.strictObject({ direction: z.enum(['forward', 'backward']).default('forward') });

/** The kinds of thing that a trace begins with, by their name in the address. */
export const traceable = {
  lots: 'lot',
  batches: 'batch',
  fields: 'field',
  plantings: 'planting',
  harvests: 'harvest',
} as const;
type Traceable = keyof typeof traceable;

@Controller('api/v1/operations/:operationId')
@UseGuards(OfOperation)
export class TraceController {
  constructor(private readonly views: Views) {}

  @Get('lots/:id/trace')
  lot(@CallingMember() member: Member, @Param('id') id: string, @Query() query: unknown): Promise<object> {
    return this.#trace(member, 'lots', id, query);
  }

  @Get('batches/:id/trace')
  batch(@CallingMember() member: Member, @Param('id') id: string, @Query() query: unknown): Promise<object> {
    return this.#trace(member, 'batches', id, query);
  }

  @Get('fields/:id/trace')
  field(@CallingMember() member: Member, @Param('id') id: string, @Query() query: unknown): Promise<object> {
    return this.#trace(member, 'fields', id, query);
  }

  @Get('plantings/:id/trace')
  planting(@CallingMember() member: Member, @Param('id') id: string, @Query() query: unknown): Promise<object> {
    return this.#trace(member, 'plantings', id, query);
  }

  @Get('harvests/:id/trace')
  harvest(@CallingMember() member: Member, @Param('id') id: string, @Query() query: unknown): Promise<object> {
    return this.#trace(member, 'harvests', id, query);
  }

  async #trace(member: Member, kind: Traceable, id: string, query: unknown): Promise<object> {
    const { direction } = queryOf(traceQuery, query);
    const uuid = uuidOf(id);
    const traced = uuid && (await this.views.trace(member.operationId, { kind: traceable[kind], id: uuid }, direction));
    if (!traced) throw notFound();
    return traced;
  }
}
