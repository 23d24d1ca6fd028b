import { pipeline } from 'node:stream/promises';
import { Controller, Get, Param, Post, Req, Res, UseGuards } from '@nestjs/common';
import type { Request, Response } from 'express';
import { CallingMember, CanAppend, OfOperation, type Member } from '../access/index.ts';
import { Documents, mediaTypes, mostBytes } from '../documents/index.ts';
import { codeOf } from '../error-code.ts';
import { drain, notFound, ProblemAnswer } from '../http/index.ts';

/** Photos, lab reports, certificates: sent and given out as bytes, named by their SHA-256. */
@Controller('api/v1/operations/:operationId/documents')
@UseGuards(OfOperation)
export class DocumentsController {
  constructor(private readonly documents: Documents) {}

  /** The body is the document itself, Content-Type says what it is. 201, or 200 where it is here already. */
  @Post()
  @UseGuards(CanAppend)
  async take(
    @CallingMember() member: Member,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<object> {
    const encoding = (request.headers['content-encoding'] ?? 'identity').trim().toLowerCase();
    if (encoding !== 'identity') throw new ProblemAnswer('unsupported-media-type', 'Send the document not compressed.');
    if (Number(request.headers['content-length'] ?? 0) > mostBytes) {
      drain(request);
      throw new ProblemAnswer('too-large', 'A document has at most 25 MiB.');
    }
    const said = (request.headers['content-type'] ?? '').split(';')[0]?.trim().toLowerCase() ?? '';
    const { fresh, ...stored } = await this.documents.take(member, request, said);
    response.status(fresh ? 201 : 200);
    return { ...stored, url: `/api/v1/operations/${member.operationId}/documents/${stored.sha256}` };
  }

  /** Never shown or run by a browser: a file to save, in a sandbox should something open it all the same. */
  @Get(':sha256')
  async give(
    @CallingMember() { operationId }: Member,
    @Param('sha256') text: string,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const sha256 = text.toLowerCase();
    const found = /^[0-9a-f]{64}$/.test(sha256) ? await this.documents.find(operationId, sha256) : null;
    if (found === null) throw notFound();
    response.setHeader('ETag', `"${sha256}"`);
    response.setHeader('Cache-Control', 'private, max-age=31536000, immutable');
    if (request.fresh) {
      response.status(304).end();
      return;
    }
    const bytes = await this.documents.open(operationId, found);
    response.setHeader('Content-Type', found.mediaType);
    response.setHeader('Content-Length', String(found.byteLength));
    response.setHeader('Content-Disposition', `attachment; filename="${sha256}.${mediaTypes[found.mediaType]}"`);
    response.setHeader('Content-Security-Policy', "sandbox; default-src 'none'");
    response.setHeader('X-Content-Type-Options', 'nosniff');
    // A reader that goes away is no fault.
    await pipeline(bytes, response).catch((error: unknown) => {
      if (codeOf(error) !== 'ERR_STREAM_PREMATURE_CLOSE') throw error;
    });
  }
}
