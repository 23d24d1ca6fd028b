import { createHash, randomBytes } from 'node:crypto';

/** A new token: 32 random bytes behind a prefix that secret scanners can be taught. Shown once, never stored. */
export function newToken(): string {
  return `fmt_${randomBytes(32).toString('base64url')}`;
}

/** What is kept of a token. */
export function tokenHash(token: string): Buffer {
  return createHash('sha256').update(token, 'utf8').digest();
}

/** The token of a request: the Authorization header's, else the session cookie's; null where there is none. */
export function tokenOf(headers: { authorization?: string | undefined; cookie?: string | undefined }): string | null {
  if (headers.authorization !== undefined) {
    return /^Bearer +([A-Za-z0-9._~+/=-]{1,200})$/i.exec(headers.authorization)?.[1] ?? null;
  }
  for (const pair of (headers.cookie ?? '').split(';')) {
    const [name, value] = pair.trim().split('=', 2);
    if (name === sessionCookie && value !== undefined && /^[A-Za-z0-9._~-]{1,200}$/.test(value)) return value;
  }
  return null;
}

export const sessionCookie = 'furrowmark_session';
