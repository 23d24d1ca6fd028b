import { createParamDecorator, Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import type { Request } from 'express';
import { notFound, ProblemAnswer, uuidOf } from '../http/index.ts';
import { Access, type Identity } from './access.ts';
import { madeByPage } from './csrf.ts';
import { LinkUse } from './link-use.ts';
import { LinkReach } from './link-reach.ts';
import { reachOf } from './reach.ts';
import type { Member, Person, Via } from './roles.ts';
import { tokenOf } from './tokens.ts';

const persons = new WeakMap<object, Person & { readonly via: Via }>();
const members = new WeakMap<object, Member & { readonly via: Via }>();

const unauthenticated = (): ProblemAnswer =>
  new ProblemAnswer('unauthenticated', 'No token, or one that is not valid (any more). Sign in, or ask for a new one.');

/** Who sends it; ends the request where nobody is known. */
async function identified(access: Access, request: Request, operationId: string | null): Promise<Identity> {
  const sent = tokenOf(request);
  const found = sent === null ? null : await access.whoIs(sent.token, operationId);
  if (sent === null || found === null) throw unauthenticated();
  return found;
}

/** A browser sends a session's cookie with whatever any page makes it send. What writes must prove it is our page. */
function proven(request: Request): void {
  if (tokenOf(request)?.by === 'cookie' && !madeByPage(request)) {
    throw new ProblemAnswer('forbidden', 'Send the token that GET /api/v1/session gives in the header X-CSRF-Token.');
  }
}

/** Lets signed-in persons through. */
@Injectable()
export class SignedIn implements CanActivate {
  constructor(private readonly access: Access) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const request = context.switchToHttp().getRequest<Request>();
    const { person } = await identified(this.access, request, null);
    proven(request);
    persons.set(request, person);
    return true;
  }
}

/** Lets members of the operation in the path through; to anybody else it is as unknown as one that does not exist. */
@Injectable()
export class OfOperation implements CanActivate {
  constructor(
    private readonly access: Access,
    private readonly reach: LinkReach,
    private readonly use: LinkUse,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const request = context.switchToHttp().getRequest<Request>();
    const operationId = uuidOf(request.params['operationId']);
    const found = await identified(this.access, request, operationId);
    if (operationId === null || found.role === null) throw notFound();
    proven(request);
    const member = { ...found.person, operationId, role: found.role };
    if (found.link === null) members.set(request, member);
    else {
      const reads = reachOf(found.link.reads, found.timeZone ?? 'UTC');
      await this.reach.allow(request, operationId, reads);
      await this.use.note(operationId, found);
      members.set(request, { ...member, reads });
    }
    return true;
  }
}

/** The signed-in person, behind {@link SignedIn}. */
export const Caller = createParamDecorator((_: unknown, context: ExecutionContext) => personIn(context));

/** The member of the path's operation, behind {@link OfOperation}. */
export const CallingMember = createParamDecorator((_: unknown, context: ExecutionContext) => memberIn(context));

/** Who sends the request, behind {@link SignedIn}. */
export function personIn(context: ExecutionContext): Person & { readonly via: Via } {
  const person = persons.get(context.switchToHttp().getRequest<Request>());
  if (!person) throw unauthenticated();
  return person;
}

/** Who sends the request, and what that is in the path's operation, behind {@link OfOperation}. */
export function memberIn(context: ExecutionContext): Member & { readonly via: Via } {
  const member = members.get(context.switchToHttp().getRequest<Request>());
  if (!member) throw unauthenticated();
  return member;
}
