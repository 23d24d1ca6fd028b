export { Access, type OwnOperation } from './access.ts';
export { Caller, CallingMember, CanAppend, OfOperation, SignedIn } from './guards.ts';
export { role, type Member, type Person, type Role } from './roles.ts';
export { sessionCookie, tokenOf } from './tokens.ts';
