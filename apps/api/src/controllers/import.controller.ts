import { Controller, HttpCode, Param, Post, Query, Req, UseGuards } from '@nestjs/common';
import { parseVerifierKey } from '@furrowmark/log';
import type { Request } from 'express';
import { z } from 'zod';
import { Caller, InPerson, isInPerson, SignedIn, type Person, type Via } from '../access/index.ts';
import { Imports, type Imported } from '../archive/index.ts';
import { drain, notFound, ProblemAnswer, queryOf, uuidOf } from '../http/index.ts';

export const importQuery = z.strictObject({
  /** A verifier key line that the importer has from outside: the archive must be signed with it. */
  key: z
    .string()
    .transform((text, context) => {
      const key = parseVerifierKey(text.replaceAll(' ', '+'));
      if (key.ok) return key.value;
      context.addIssue({ code: 'custom', message: `must be a verifier key line: ${key.why}` });
      return z.NEVER;
    })
    .optional(),
});

/** The media types that an archive comes as. */
export const archiveTypes = ['application/x-tar', 'application/octet-stream'] as const;

/** Takes a whole-operation archive; whoever sends it is its manager here. */
@Controller('api/v1/operations')
@UseGuards(SignedIn)
export class ImportController {
  constructor(private readonly imports: Imports) {}

  @Post('import')
  @HttpCode(201)
  @UseGuards(InPerson)
  take(@Caller() person: Person, @Query() query: unknown, @Req() request: Request): Promise<Imported> {
    return this.#take(person, query, request);
  }

  /** The same, with the operation's id in the address: an id that is here already answers 409 to its members. */
  @Post(':operationId/import')
  @HttpCode(201)
  async takeAs(
    @Caller() person: Person & { readonly via: Via },
    @Param('operationId') text: string,
    @Query() query: unknown,
    @Req() request: Request,
  ): Promise<Imported> {
    const operationId = uuidOf(text);
    const known = operationId === null ? null : await this.imports.known(operationId, person.accountId);
    // To others an operation is as unknown as one that does not exist, and nothing but an archive makes one.
    if (operationId === null || known === null || (known.here ? !known.member : !isArchive(request))) throw notFound();
    if (!isInPerson(person.via)) throw new ProblemAnswer('forbidden', 'Import signed in as a person.');
    if (known.here && isArchive(request)) {
      drain(request);
      throw new ProblemAnswer('conflict', `The operation ${operationId} is here already.`);
    }
    return this.#take(person, query, request, operationId);
  }

  #take(person: Person, query: unknown, request: Request, operationId?: string): Promise<Imported> {
    const { key } = queryOf(importQuery, query);
    if (!isArchive(request))
      throw new ProblemAnswer('unsupported-media-type', 'Send the archive as application/x-tar.');
    const wish = { key: key ?? null, ...(operationId === undefined ? {} : { operationId }) };
    return this.imports.take(person, request, wish);
  }
}

function isArchive({ headers }: Request): boolean {
  const type = (headers['content-type'] ?? '').split(';')[0]?.trim().toLowerCase() ?? '';
  const encoding = (headers['content-encoding'] ?? 'identity').trim().toLowerCase();
  return encoding === 'identity' && archiveTypes.some((each) => each === type);
}
