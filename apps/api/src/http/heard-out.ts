import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Duplex } from 'node:stream';
import { drain } from './json-body.ts';

/*
 * Answers to somebody who may still be writing. Closed upon at once, the system resets the connection and the answer may
 * be lost with it (RFC 9112 §9.6).
 */

/** How long a sender that goes on writing is heard out (milliseconds). */
const patience = 2_000;

/** Answers at once with what its headers, Content-Length among them, announce; ends when the sender has, or after two seconds. */
export function endAfter(request: IncomingMessage, response: ServerResponse, text: string): void {
  response.write(text);
  const end = (): void => {
    clearTimeout(late);
    response.end();
  };
  const late = setTimeout(end, patience);
  request.once('end', end).once('close', end);
  drain(request);
}

/** The same where no request came about: the last that is written on a connection. */
export function lastWord(socket: Duplex, text: string): void {
  const late = setTimeout(() => socket.destroy(), patience);
  socket.once('end', () => socket.destroy());
  socket.once('close', () => clearTimeout(late));
  socket.end(text);
  socket.resume();
}
