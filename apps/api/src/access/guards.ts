import { createParamDecorator, Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import type { Request } from 'express';
import { notFound, ProblemAnswer, uuidOf } from '../http/index.ts';
import { Access } from './access.ts';
import type { Member, Person } from './roles.ts';
import { tokenOf } from './tokens.ts';

const persons = new WeakMap<object, Person>();
const members = new WeakMap<object, Member>();

const unauthenticated = (): ProblemAnswer =>
  new ProblemAnswer('unauthenticated', 'No token, or one that is not valid (any more). Sign in, or ask for a new one.');

/** Lets signed-in persons through. */
@Injectable()
export class SignedIn implements CanActivate {
  constructor(private readonly access: Access) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const request = context.switchToHttp().getRequest<Request>();
    const token = tokenOf(request.headers);
    const found = token === null ? null : await this.access.whoIs(token, null);
    if (!found) throw unauthenticated();
    persons.set(request, found.person);
    return true;
  }
}

/** Lets members of the operation in the path through; to anybody else it is as unknown as one that does not exist. */
@Injectable()
export class OfOperation implements CanActivate {
  constructor(private readonly access: Access) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const request = context.switchToHttp().getRequest<Request>();
    const operationId = uuidOf(request.params['operationId']);
    const token = tokenOf(request.headers);
    const found = token === null ? null : await this.access.whoIs(token, operationId);
    if (!found) throw unauthenticated();
    if (operationId === null || found.role === null) throw notFound();
    members.set(request, { ...found.person, operationId, role: found.role });
    return true;
  }
}

/** The signed-in person, behind {@link SignedIn}. */
export const Caller = createParamDecorator((_: unknown, context: ExecutionContext): Person => {
  const person = persons.get(context.switchToHttp().getRequest<Request>());
  if (!person) throw unauthenticated();
  return person;
});

/** The member of the path's operation, behind {@link OfOperation}. */
export const CallingMember = createParamDecorator((_: unknown, context: ExecutionContext): Member => {
  const member = members.get(context.switchToHttp().getRequest<Request>());
  if (!member) throw unauthenticated();
  return member;
});

/** Lets through, behind {@link OfOperation}, whoever may append to the log. Inspectors only read. */
@Injectable()
export class CanAppend implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    const member = members.get(context.switchToHttp().getRequest<Request>());
    if (member === undefined || member.role === 'inspector') {
      throw new ProblemAnswer('forbidden', 'Your role here only reads. Ask a manager for another one.');
    }
    return true;
  }
}
