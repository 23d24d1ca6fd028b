import { createHash, randomBytes } from 'node:crypto';

/** A new secret: 32 random bytes behind a prefix that secret scanners can be taught. Shown once, never stored. */
export function newToken(prefix: 'fmt' | 'fms' | 'fmi' = 'fmt'): string {
  return `${prefix}_${randomBytes(32).toString('base64url')}`;
}

/** What is kept of a token. */
export function tokenHash(token: string): Buffer {
  return createHash('sha256').update(token, 'utf8').digest();
}

/** The session cookie's name. */
export const sessionCookie = 'furrowmark_session';

interface Carrying {
  readonly headers: { readonly authorization?: string | undefined };
  /** Read by the cookie library. */
  readonly cookies?: unknown;
}

/** The token of a request: the Authorization header's, else the session cookie's; null where there is none. */
export function tokenOf(request: Carrying): { readonly token: string; readonly by: 'header' | 'cookie' } | null {
  const { authorization } = request.headers;
  if (authorization !== undefined) {
    const token = /^Bearer +([A-Za-z0-9._~+/=-]{1,200})$/i.exec(authorization)?.[1];
    return token === undefined ? null : { token, by: 'header' };
  }
  const { cookies } = request;
  const value: unknown =
    typeof cookies === 'object' && cookies !== null ? Reflect.get(cookies, sessionCookie) : undefined;
  return typeof value === 'string' && /^[A-Za-z0-9._~-]{1,200}$/.test(value) ? { token: value, by: 'cookie' } : null;
}
