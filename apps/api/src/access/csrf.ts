import { doubleCsrf } from 'csrf-csrf';
import type { Request, Response } from 'express';
import { sessionCookie, tokenOf } from './tokens.ts';

/** The session's secret: known to the browser's cookie jar and to nobody who forges a request. */
function sessionOf(request?: Request): string {
  const found = request === undefined ? null : tokenOf({ headers: {}, cookies: request.cookies });
  return found?.token ?? '';
}

const csrf = doubleCsrf({
  // The double-submitted token is an HMAC under the session's own secret, so that any process can check it.
  getSecret: sessionOf,
  getSessionIdentifier: sessionOf,
  cookieName: `${sessionCookie}_csrf`,
  getCsrfTokenFromRequest: (request) => request.headers['x-csrf-token'],
});

/** How the cookies of a session are set. `Secure` wherever the request came by TLS (a proxy in front says so). */
const cookie = (request: Request) => ({
  httpOnly: true,
  sameSite: 'strict' as const,
  secure: request.secure,
  path: '/',
});

/** Sets the session cookie, and gives the token that writing requests must carry in `X-CSRF-Token`. */
export function openCookies(request: Request, response: Response, token: string, expires: Date): string {
  response.cookie(sessionCookie, token, { ...cookie(request), expires });
  request.cookies = { [sessionCookie]: token };
  return csrf.generateCsrfToken(request, response, { overwrite: true, cookieOptions: cookie(request) });
}

/** The token for writing requests of a session that is open already. */
export function csrfTokenFor(request: Request, response: Response): string {
  return csrf.generateCsrfToken(request, response, {
    overwrite: false,
    validateOnReuse: false,
    cookieOptions: cookie(request),
  });
}

export function closeCookies(request: Request, response: Response): void {
  for (const name of [sessionCookie, `${sessionCookie}_csrf`]) response.clearCookie(name, cookie(request));
}

/** Whether a request that a session's cookie vouches for was made by the page itself; reading ones need no proof. */
export function madeByPage(request: Request): boolean {
  return /^(GET|HEAD|OPTIONS)$/.test(request.method) || csrf.validateRequest(request);
}
