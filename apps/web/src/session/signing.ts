import { problemIn } from '../http/ask.ts';
import { signIn } from './session.ts';

/** Why somebody could not sign in, in the service's words; null where they could; 'unreachable' without reception. */
export type SigningIn = string | 'unreachable' | null;

async function post(path: string, json: unknown, csrf?: string): Promise<{ status: number; body: unknown } | null> {
  try {
    const headers: Record<string, string> = { 'content-type': 'application/json' };
    if (csrf !== undefined) headers['x-csrf-token'] = csrf;
    const answer = await fetch(`/api/v1${path}`, { method: 'POST', headers, body: JSON.stringify(json) });
    return { status: answer.status, body: await answer.json().catch(() => ({})) };
  } catch {
    return null;
  }
}

const textIn = (body: unknown, name: string): string => {
  const value: unknown = typeof body === 'object' && body !== null ? Reflect.get(body, name) : undefined;
  return typeof value === 'string' ? value : '';
};

/**
 * Name and password are exchanged for a token of this device, which works offline and can be withdrawn by itself; the
 * session that the password opened is closed again.
 */
export function signInWith(login: string, password: string): Promise<SigningIn> {
  return throughPassword('/session', { login, password });
}

/** Accepts an invitation as a new person. */
export function acceptInvitation(invitation: string, login: string, password: string): Promise<SigningIn> {
  return throughPassword('/invitations/accept', { invitation, login, password });
}

async function throughPassword(path: string, json: unknown): Promise<SigningIn> {
  const opened = await post(path, json);
  if (opened === null) return 'unreachable';
  if (opened.status >= 300) return problemIn(opened.body, String(opened.status)).detail;
  const csrf = textIn(opened.body, 'csrfToken');
  const device = await post('/account/devices', { label: deviceName() }, csrf);
  await fetch('/api/v1/session', { method: 'DELETE', headers: { 'x-csrf-token': csrf } }).catch(() => undefined);
  if (device === null) return 'unreachable';
  const token = textIn(device.body, 'token');
  if (token === '') return problemIn(device.body, String(device.status)).detail;
  signIn(token);
  return null;
}

function deviceName(): string {
  const known = /iPhone|iPad|Android|Windows|Macintosh|Linux/.exec(navigator.userAgent)?.[0] ?? 'browser';
  return `${known} ${new Date().toISOString().slice(0, 10)}`;
}

/** The invitation of a link `#invitation=…`, taken out of the address at once. */
export function invitationInLink(): string | null {
  const given = new URLSearchParams(location.hash.slice(1)).get('invitation');
  if (given === null) return null;
  history.replaceState(null, '', location.pathname + location.search);
  return given;
}
