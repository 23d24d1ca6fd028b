import { change, session, speaking } from '../session/session.ts';

/** Why the service did not do it, in its own words (RFC 9457). */
export interface Problem {
  readonly title: string;
  readonly detail: string;
  readonly errors: readonly { readonly pointer: string; readonly detail: string }[];
}

/** What became of a question. Only bugs throw. */
export type Answer =
  | { readonly kind: 'ok'; readonly body: unknown }
  /** Nobody is signed in, or the token has ended. */
  | { readonly kind: 'ended' }
  | { readonly kind: 'refused'; readonly status: number; readonly problem: Problem }
  /** The service asks to wait. */
  | { readonly kind: 'busy'; readonly seconds: number }
  /** No reception, or nothing answers. */
  | { readonly kind: 'unreachable' };

export interface Question {
  readonly method?: 'GET' | 'POST' | 'PUT' | 'DELETE';
  readonly json?: unknown;
  readonly body?: Blob;
  readonly headers?: Readonly<Record<string, string>>;
  readonly signal?: AbortSignal;
  /** Milliseconds that the question may take; half a minute where left out. A whole archive takes longer. */
  readonly patience?: number;
  /** Asked with this token instead of that of whoever speaks. */
  readonly as?: string | undefined;
}

/** Longest that an ordinary question waits: on one bar of reception an answer that takes longer will not come. */
const patience = 30_000;

/** Asks the service. `path` begins after `/api/v1`. */
export async function ask(path: string, question: Question = {}): Promise<Answer> {
  const response = await send(path, question);
  if (response === 'ended' || response === 'unreachable') return { kind: response };
  try {
    if (response.ok) return { kind: 'ok', body: response.status === 204 ? null : await response.json() };
    return refusal(response.status, response.headers, await response.json().catch(() => ({})));
  } catch {
    // The connection broke inside the answer.
    return { kind: 'unreachable' };
  }
}

/** Asks for a file: a PDF, a table. */
export async function askFile(
  path: string,
  accept: string,
  longest = patience,
): Promise<Answer | { kind: 'file'; blob: Blob }> {
  const response = await send(path, { headers: { accept }, patience: longest });
  if (response === 'ended' || response === 'unreachable') return { kind: response };
  if (response.ok) {
    try {
      return { kind: 'file', blob: await response.blob() };
    } catch {
      // The connection broke inside the file.
      return { kind: 'unreachable' };
    }
  }
  return refusal(response.status, response.headers, await response.json().catch(() => ({})));
}

async function send(path: string, question: Question): Promise<Response | 'ended' | 'unreachable'> {
  const now = session.get();
  if (now === null || now.ended) return 'ended';
  const token = question.as ?? speaking(now);
  const headers: Record<string, string> = { authorization: `Bearer ${token}`, ...question.headers };
  if (question.json !== undefined) headers['content-type'] = 'application/json';
  const body = question.json === undefined ? (question.body ?? null) : JSON.stringify(question.json);
  const limit = AbortSignal.timeout(question.patience ?? patience);
  const signal = question.signal === undefined ? limit : AbortSignal.any([limit, question.signal]);
  let response: Response;
  try {
    response = await fetch(`/api/v1${path}`, { method: question.method ?? 'GET', headers, body, signal });
  } catch {
    return 'unreachable';
  }
  if (response.status !== 401) return response;
  // Another tab may have signed in meanwhile; only the token that was refused has ended.
  if (session.get()?.token === token) change({ ended: true });
  else if (session.get()?.hand?.token === token) change({ hand: null });
  return 'ended';
}

function refusal(status: number, headers: Headers, body: unknown): Answer {
  if (status === 429 || status >= 500) {
    const seconds = Number(headers.get('retry-after') ?? '');
    return { kind: 'busy', seconds: Number.isFinite(seconds) && seconds > 0 ? seconds : 10 };
  }
  return { kind: 'refused', status, problem: problemIn(body, `The service answered ${String(status)}.`) };
}

/** Reads a problem from whatever came. */
export function problemIn(body: unknown, otherwise = ''): Problem {
  const text = (from: unknown, name: string): string | undefined => {
    const value: unknown = typeof from === 'object' && from !== null ? Reflect.get(from, name) : undefined;
    return typeof value === 'string' ? value : undefined;
  };
  const errors: unknown = typeof body === 'object' && body !== null ? Reflect.get(body, 'errors') : undefined;
  return {
    title: text(body, 'title') ?? '',
    detail: text(body, 'detail') ?? text(body, 'title') ?? otherwise,
    errors: (Array.isArray(errors) ? errors : []).map((each: unknown) => ({
      pointer: text(each, 'pointer') ?? '',
      detail: text(each, 'detail') ?? '',
    })),
  };
}
