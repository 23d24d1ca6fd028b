export { Access, type Identity, type NewToken, type OwnOperation } from './access.ts';
export { AccountScope, naming, type Named } from './account-scope.ts';
export { Attempts } from './attempts.ts';
export { closeCookies, csrfTokenFor, madeByPage, openCookies } from './csrf.ts';
export { EndedAccess } from './ended-access.ts';
export { Caller, CallingMember, OfOperation, SignedIn } from './guards.ts';
export {
  AtDesk,
  CanAppend,
  CanSign,
  InPerson,
  isInPerson,
  KeepsLog,
  Manages,
  OnSharedPhone,
  SetsPin,
  MemberInPerson,
} from './permits.ts';
export { LinkUse } from './link-use.ts';
export { OwnTokens, type MachineToken, type OwnToken } from './own-tokens.ts';
export { Pins } from './pins.ts';
export { LinkReach } from './link-reach.ts';
export { reachParameters, withinReach } from './reach.ts';
export {
  role,
  type Member,
  type Period,
  type Person,
  type Reach,
  type Role,
  type TokenKind,
  type Via,
} from './roles.ts';
export { loginOf, SignIn, type NewSession } from './sign-in.ts';
export { newToken, sessionCookie, tokenHash, tokenOf } from './tokens.ts';
