import { z } from 'zod';

/** What a person is in an operation. */
export const role = z.enum(['recorder', 'reviewer', 'manager', 'inspector']);
export type Role = z.infer<typeof role>;

/** Who sends a request. */
export interface Person {
  readonly accountId: string;
  readonly name: string;
}

/** Who sends a request, and what that person is in the operation that the path names. */
export interface Member extends Person {
  readonly operationId: string;
  readonly role: Role;
}
