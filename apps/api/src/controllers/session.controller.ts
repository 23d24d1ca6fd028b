import { Controller, Delete, Get, HttpCode, Post, Req, Res, UseGuards } from '@nestjs/common';
import { Throttle } from '../http/throttle.ts';
import type { Request, Response } from 'express';
import { z } from 'zod';
import {
  Access,
  Caller,
  closeCookies,
  csrfTokenFor,
  OnSharedPhone,
  OwnTokens,
  openCookies,
  Pins,
  SignedIn,
  SignIn,
  tokenOf,
  type NewSession,
  type Person,
  type Via,
} from '../access/index.ts';
import { bodyOf, JsonBody, ProblemAnswer, uuidOf } from '../http/index.ts';

export const signInBody = z.strictObject({ login: z.string().min(1).max(200), password: z.string().min(1).max(1000) });
export const pinBody = z.strictObject({ accountId: z.string(), pin: z.string().min(1).max(20) });

type SignedInPerson = Person & { readonly via: Via };

/** Signing in and out. */
@Controller('api/v1/session')
export class SessionController {
  constructor(
    private readonly signIns: SignIn,
    private readonly access: Access,
    private readonly tokens: OwnTokens,
    private readonly pins: Pins,
  ) {}

  /** With name and password: a session in a cookie that no script can read. */
  @Post()
  @UseGuards(Throttle)
  async signIn(
    @JsonBody() body: unknown,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<object> {
    const { login, password } = bodyOf(signInBody, body);
    const session = await this.signIns.signIn(login, password);
    if (session === null) throw new ProblemAnswer('unauthenticated', 'Name or password is not right.');
    return opened(session, request, response);
  }

  /** Who is signed in, how, how far a reading link reaches, and (for the page) the token that writing requests must carry. */
  @Get()
  @UseGuards(SignedIn)
  async show(
    @Caller() person: SignedInPerson,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<object> {
    const { accountId, name, via } = person;
    const sent = tokenOf(request);
    const link =
      via.kind === 'link' && sent !== null ? (await this.access.whoIs(sent.token, via.operationId))?.link : null;
    return {
      person: { accountId, name },
      kind: via.kind,
      // The days that a reading link reaches: who reads by it is to know what it leaves out.
      ...(link === null || link === undefined ? {} : { reads: link.reads }),
      expiresAt: via.expiresAt === null ? null : new Date(via.expiresAt).toISOString(),
      operations: await this.access.operationsOf(accountId, via),
      ...(sent?.by === 'cookie' ? { csrfToken: csrfTokenFor(request, response) } : {}),
    };
  }

  /** Signs out: the session, or this device's token, opens nothing any more. */
  @Delete()
  @HttpCode(204)
  @UseGuards(SignedIn)
  async signOut(
    @Caller() person: SignedInPerson,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<void> {
    if (!['session', 'pin', 'device'].includes(person.via.kind)) {
      throw new ProblemAnswer('forbidden', 'This token is no session. It is withdrawn where it was made.');
    }
    await this.tokens.withdraw(person, person.via.tokenId);
    closeCookies(request, response);
  }

  /** Who may sign in with a PIN on this phone. */
  @Get('people')
  @UseGuards(SignedIn, OnSharedPhone)
  async people(@Caller() phone: SignedInPerson): Promise<object> {
    return { people: await this.pins.people(phone) };
  }

  /** On a shared phone, with the phone's own token: a person's session by their PIN. */
  @Post('pin')
  @UseGuards(SignedIn, OnSharedPhone, Throttle)
  async pin(@Caller() phone: SignedInPerson, @JsonBody() body: unknown): Promise<object> {
    const { accountId, pin } = bodyOf(pinBody, body);
    const id = uuidOf(accountId);
    const session = id === null ? null : await this.pins.signIn(phone, id, pin);
    if (session === null) throw new ProblemAnswer('forbidden', 'The PIN is not right.');
    return { person: session.person, token: session.token, expiresAt: session.expiresAt?.toISOString() ?? null };
  }
}

/** Sets the cookies; the secret itself stands nowhere in the answer. */
export function opened(session: NewSession, request: Request, response: Response): object {
  const csrfToken = openCookies(request, response, session.token, session.expiresAt);
  const { accountId, name } = session.person;
  return { person: { accountId, name }, kind: 'session', expiresAt: session.expiresAt.toISOString(), csrfToken };
}
