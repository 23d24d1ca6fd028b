import { Injectable, type CanActivate, type ExecutionContext } from '@nestjs/common';
import type { Request } from 'express';
import { ProblemAnswer, uuidOf } from '../http/index.ts';
import { memberIn, personIn } from './guards.ts';
import type { TokenKind } from './roles.ts';

// What may be done is decided in guards: nobody's body is read before it is known that the sender may send it.

function permit(may: boolean, otherwise: string): true {
  if (may) return true;
  throw new ProblemAnswer('forbidden', otherwise);
}

const personal: ReadonlySet<TokenKind> = new Set<TokenKind>(['person', 'device', 'session']);

/** Lets through, behind OfOperation, whoever may append to the log. Inspectors only read. */
@Injectable()
export class CanAppend implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    const { role } = memberIn(context);
    return permit(role !== 'inspector', 'Your role here only reads. Ask a manager for another one.');
  }
}

/** Lets through, behind OfOperation, whoever reviews and signs. */
@Injectable()
export class CanSign implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    const { role } = memberIn(context);
    return permit(role === 'reviewer' || role === 'manager', 'Only reviewers and managers review and sign batches.');
  }
}

/** Lets through, behind OfOperation, whoever decides who may do what. */
@Injectable()
export class Manages implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    return permit(memberIn(context).role === 'manager', 'Only managers may do this. Ask one of them.');
  }
}

/** Lets through, behind OfOperation, whoever answers for the log itself: its key, and who outside gets its checkpoints. */
@Injectable()
export class KeepsLog implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    return permit(
      memberIn(context).role === 'manager',
      'Only managers decide about the key of the log and its witnesses.',
    );
  }
}

/** Whether a person sent it: not a program, a reading link or a shared phone. */
export const isInPerson = ({ kind }: { readonly kind: TokenKind }): boolean => personal.has(kind);

/** Lets through, behind OfOperation, managers, and the person whose PIN the path is about, signed in as such. */
@Injectable()
export class SetsPin implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    const { role, accountId, via } = memberIn(context);
    const about = uuidOf(context.switchToHttp().getRequest<Request>().params['accountId']);
    return permit(
      role === 'manager' || (about === accountId && personal.has(via.kind)),
      'You set your own PIN, signed in as yourself; managers set anybody’s.',
    );
  }
}

/** Lets through, behind SignedIn, what a person sent: not a program, a reading link or a shared phone. */
@Injectable()
export class InPerson implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    return permit(
      personal.has(personIn(context).via.kind),
      'This can only be done signed in as a person, not through a link, a program or a shared phone.',
    );
  }
}

/** Lets through, behind OfOperation, a member who sent it as a person: what is theirs alone, no shared phone changes. */
@Injectable()
export class MemberInPerson implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    return permit(
      personal.has(memberIn(context).via.kind),
      'This can only be done signed in as a person, not through a link, a program or a shared phone.',
    );
  }
}

/**
 * Lets through, behind SignedIn, a person at the desk. A phone does not make further tokens: whoever finds it would keep
 * one when the phone's own is withdrawn.
 */
@Injectable()
export class AtDesk implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    const { kind } = personIn(context).via;
    return permit(
      kind === 'person' || kind === 'session',
      'New tokens are made at the desk, signed in with a password.',
    );
  }
}

/** Lets through, behind SignedIn, the phones that people of an operation share. */
@Injectable()
export class OnSharedPhone implements CanActivate {
  canActivate(context: ExecutionContext): boolean {
    const { kind } = personIn(context).via;
    return permit(kind === 'phone', 'PINs are for the phones that people of an operation share.');
  }
}
