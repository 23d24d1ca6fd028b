import { connect } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import type { Attempt } from './attempts.ts';

/** What came back: an answer, or how the connection ended. */
export type Reply =
  | {
      readonly kind: 'answer';
      readonly status: number;
      readonly type: string;
      readonly retryAfter: string | null;
      readonly body: Buffer;
    }
  | { readonly kind: 'closed' | 'hung' | 'cut off here' };

/** How long an answer may take (milliseconds). */
export const patience = 60_000;

/** Sends a request byte for byte, as no well-behaved client would, and reads what comes back. */
export function send(url: string, attempt: Attempt): Promise<Reply> {
  const { hostname, port } = new URL(url);
  const body = attempt.body === null ? null : Buffer.from(attempt.body);
  const chunked = 'transfer-encoding' in attempt.headers;
  const head = [
    `${attempt.method} ${attempt.target} HTTP/1.1`,
    `Host: ${hostname}:${port}`,
    'Connection: close',
    ...Object.entries(attempt.headers).map(([name, value]) => `${name}: ${value}`),
    ...(body === null || chunked ? [] : [`Content-Length: ${body.length}`]),
  ].join('\r\n');
  return new Promise((resolve) => {
    const socket = connect(Number(port), hostname);
    const chunks: Buffer[] = [];
    const finish = (reply: Reply): void => {
      clearTimeout(timer);
      socket.destroy();
      resolve(reply);
    };
    const timer = setTimeout(() => finish({ kind: 'hung' }), patience);
    const ended = (): void => finish(parsed(Buffer.concat(chunks), attempt.method === 'HEAD'));
    socket.on('data', (chunk) => chunks.push(chunk));
    socket.once('end', ended);
    socket.on('error', ended);
    socket.once('connect', () => {
      void (async () => {
        socket.write(Buffer.from(`${head}\r\n\r\n`, 'latin1'));
        if (body === null) {
          if (chunked) socket.write('0\r\n\r\n');
          return;
        }
        if (attempt.pieces === 0) {
          socket.write(body.subarray(0, body.length >> 1));
          await pause(20);
          return finish({ kind: 'cut off here' });
        }
        const size = Math.max(1, Math.ceil(body.length / attempt.pieces));
        for (let at = 0; at < body.length && !socket.destroyed; at += size) {
          const piece = body.subarray(at, at + size);
          if (chunked) socket.write(`${piece.length.toString(16)}\r\n`);
          socket.write(piece);
          if (chunked) socket.write('\r\n');
          if (attempt.pieces > 1) await pause(60);
        }
        if (chunked && !socket.destroyed) socket.write('0\r\n\r\n');
      })();
    });
  });
}

function parsed(bytes: Buffer, headOnly: boolean): Reply {
  const end = bytes.indexOf('\r\n\r\n');
  if (end < 0) return { kind: 'closed' };
  const [first = '', ...lines] = bytes.subarray(0, end).toString('latin1').split('\r\n');
  const headers = new Map(
    lines.map((line) => {
      const colon = line.indexOf(':');
      return [line.slice(0, colon).toLowerCase(), line.slice(colon + 1).trim()];
    }),
  );
  const status = Number(first.split(' ')[1]);
  // "Continue" stands before the answer proper.
  if (status === 100) return parsed(bytes.subarray(end + 4), headOnly);
  const rest = bytes.subarray(end + 4);
  const body = headOnly ? Buffer.alloc(0) : headers.get('transfer-encoding') === 'chunked' ? dechunked(rest) : rest;
  return {
    kind: 'answer',
    status,
    type: headers.get('content-type') ?? '',
    retryAfter: headers.get('retry-after') ?? null,
    body,
  };
}

function dechunked(bytes: Buffer): Buffer {
  const parts: Buffer[] = [];
  for (let at = 0; at < bytes.length;) {
    const line = bytes.indexOf('\r\n', at);
    const size = Number.parseInt(bytes.subarray(at, line).toString('latin1'), 16);
    if (line < 0 || !(size > 0)) break;
    parts.push(bytes.subarray(line + 2, line + 2 + size));
    at = line + 2 + size + 2;
  }
  return Buffer.concat(parts);
}
