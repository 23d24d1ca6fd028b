import { Controller, Post, Req, Res, UseGuards } from '@nestjs/common';
import { Throttle } from '../http/throttle.ts';
import type { Request, Response } from 'express';
import { z } from 'zod';
import { Access, madeByPage, SignIn, tokenOf } from '../access/index.ts';
import { Invitations } from '../granting/index.ts';
import { bodyOf, JsonBody, ProblemAnswer } from '../http/index.ts';
import { opened } from './session.controller.ts';

const secret = z.string().min(1).max(200);
export const acceptBody = z.union([
  z.strictObject({ invitation: secret, password: z.string().max(1000), login: z.string().max(200).optional() }),
  z.strictObject({ invitation: secret }),
]);

/** Accepting an invitation: nobody need be signed in for it. */
@Controller('api/v1/invitations')
@UseGuards(Throttle)
export class InvitationsController {
  constructor(
    private readonly invitations: Invitations,
    private readonly access: Access,
    private readonly signIns: SignIn,
  ) {}

  /** As a new person, with a sign-in name and a password; or, signed in already, as the person one is. */
  @Post('accept')
  async accept(
    @JsonBody() body: unknown,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<object> {
    const { invitation, ...answer } = bodyOf(acceptBody, body);
    if ('password' in answer) {
      const { person, operationId, role } = await this.invitations.accept(invitation, answer);
      return { ...opened(await this.signIns.openFor(person), request, response), operationId, role };
    }
    const sent = tokenOf(request);
    const forged = sent?.by === 'cookie' && !madeByPage(request);
    const found = sent === null || forged ? null : await this.access.whoIs(sent.token, null);
    if (found === null || !['person', 'device', 'session'].includes(found.person.via.kind)) {
      throw new ProblemAnswer(
        'unauthenticated',
        'Sign in as the person that the invitation is for, or give a password.',
      );
    }
    const { operationId, role } = await this.invitations.accept(invitation, { as: found.person });
    return { operationId, role };
  }
}
