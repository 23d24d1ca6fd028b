import { Controller, Get, Header, Query, Req, Res, UseGuards } from '@nestjs/common';
import type { Request, Response } from 'express';
import { parseTilePath } from '@furrowmark/log';
import { z } from 'zod';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { notFound, ProblemAnswer, queryOf } from '../http/index.ts';
import { LogReader } from '../log/index.ts';
import { count } from './parameters.ts';

export const inclusionQuery = z.strictObject({ seq: count, size: count.optional() });
export const consistencyQuery = z.strictObject({ from: count, to: count.optional() });
export const entriesQuery = z.strictObject({ from: count.default(0), to: count.optional() });

/** Entries in one answer. */
const mostEntries = 1_000;

/** The log itself: what an inspector's own program needs to check that nothing was rewritten. */
@Controller('api/v1/operations/:operationId/log')
@UseGuards(OfOperation)
export class LogController {
  constructor(private readonly log: LogReader) {}

  @Get('checkpoint')
  @Header('Content-Type', 'text/plain; charset=utf-8')
  checkpoint(@CallingMember() member: Member): Promise<string> {
    return this.log.checkpoint(member.operationId);
  }

  @Get('key')
  @Header('Content-Type', 'text/plain; charset=utf-8')
  async key(@CallingMember() member: Member): Promise<string> {
    const line = await this.log.verifierKey(member.operationId);
    if (line === null) throw notFound();
    return `${line}\n`;
  }

  @Get('proof/inclusion')
  async inclusion(@CallingMember() member: Member, @Query() query: unknown): Promise<object> {
    const { seq, size } = queryOf(inclusionQuery, query);
    return (await this.log.inclusion(member.operationId, seq, size)) ?? beyond(size === undefined ? 'seq' : 'size');
  }

  @Get('proof/consistency')
  async consistency(@CallingMember() member: Member, @Query() query: unknown): Promise<object> {
    const { from, to } = queryOf(consistencyQuery, query);
    return (await this.log.consistency(member.operationId, from, to)) ?? beyond('to');
  }

  /** NDJSON; where more follow, `Link: <…>; rel="next"` names where to go on. */
  @Get('entries')
  async entries(@CallingMember() member: Member, @Query() query: unknown, @Res() response: Response): Promise<void> {
    const { from, to } = queryOf(entriesQuery, query);
    const { bytes, end, next } = await this.log.entries(member.operationId, from, to, mostEntries);
    if (next !== null) {
      const address = `/api/v1/operations/${member.operationId}/log/entries?from=${next}&to=${end}`;
      response.setHeader('Link', `<${address}>; rel="next"`);
      response.setHeader('Furrowmark-Next', String(next));
    }
    const newline = Buffer.from('\n');
    response.type('application/x-ndjson').send(Buffer.concat(bytes.flatMap((entry) => [entry, newline])));
  }

  @Get('tile/*path')
  async tile(@CallingMember() member: Member, @Req() request: Request, @Res() response: Response): Promise<void> {
    const path = /\/log\/(tile\/.*)$/.exec(request.path)?.[1] ?? '';
    const tile = parseTilePath(path);
    const content = tile.ok ? await this.log.tile(member.operationId, tile.value) : null;
    if (content === null) throw notFound();
    // A full tile never changes.
    if (tile.ok && tile.value.width === 256)
      response.setHeader('Cache-Control', 'private, max-age=31536000, immutable');
    response.type('application/octet-stream').send(Buffer.from(content));
  }
}

function beyond(parameter: string): never {
  const detail = 'lies beyond the log as it is now';
  throw new ProblemAnswer('invalid-parameter', `${parameter} ${detail}.`, [{ parameter, detail }]);
}
