import { z } from 'zod';

/** What a person is in an operation. */
export const role = z.enum(['recorder', 'reviewer', 'manager', 'inspector']);
export type Role = z.infer<typeof role>;

/**
 * What a token is: a person's, one of a person's devices, a program's, a phone that several people share, a reading
 * link, a session at the desk, a session on a shared phone.
 */
export const tokenKind = z.enum(['person', 'device', 'machine', 'phone', 'link', 'session', 'pin']);
export type TokenKind = z.infer<typeof tokenKind>;

/** Days of the operation's zone that somebody may read, both inclusive; null: without that bound. */
export interface Period {
  readonly from: string | null;
  readonly until: string | null;
}

/** How far a reading link reaches: its days, and the same as instants (milliseconds, `end` exclusive). */
export interface Reach extends Period {
  readonly start: number;
  readonly end: number;
}

/** The token that a request came with, as far as it bears on what the request may do. */
export interface Via {
  readonly kind: TokenKind;
  readonly tokenId: string;
  /** Opens this operation only. */
  readonly operationId: string | null;
  readonly roleAtMost: Role | null;
  /** Milliseconds; null: until withdrawn. */
  readonly expiresAt: number | null;
}

/** Who sends a request. */
export interface Person {
  readonly accountId: string;
  readonly name: string;
  /** Absent where the program itself acts. */
  readonly via?: Via;
}

/** Who sends a request, and what that person is in the operation that the path names. */
export interface Member extends Person {
  readonly operationId: string;
  readonly role: Role;
  /** How far a reading link reaches; absent: no such limit. */
  readonly reads?: Reach;
}

const order: readonly Role[] = ['inspector', 'recorder', 'reviewer', 'manager'];

/** The role itself, or the lower one where the token does not carry it. */
export function atMost(own: Role, most: Role | null): Role {
  return most !== null && order.indexOf(most) < order.indexOf(own) ? most : own;
}
