import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Duplex } from 'node:stream';
import { drain } from './json-body.ts';

/*
 * Answers to somebody who may still be writing. Closed upon at once, the system resets the connection and the answer may
 * be lost with it (RFC 9112 §9.6).
 */

/** How long a sender is heard out that falls silent, or of which no request came (milliseconds). */
const patience = 2_000;
/** How long one at most that goes on writing: a photograph that is too large, on a slow line. */
const longest = 60_000;
/** The same of one who wrote nothing that could be read. */
const longestUnread = 10_000;

/**
 * Answers at once with what its headers, Content-Length among them, announce; ends when the sender has, was silent for two
 * seconds, or has gone on for a minute.
 */
export function endAfter(request: IncomingMessage, response: ServerResponse, text: string): void {
  response.write(text);
  const end = (): void => {
    clearTimeout(silent);
    clearTimeout(late);
    response.end();
  };
  const silent = setTimeout(end, patience);
  const late = setTimeout(end, longest);
  request.on('data', () => silent.refresh());
  request.once('end', end).once('close', end);
  drain(request);
}

/** The same where no request came about: the last that is written on a connection. */
export function lastWord(socket: Duplex, text: string): void {
  const end = (): void => {
    socket.destroy();
  };
  const silent = setTimeout(end, patience);
  const late = setTimeout(end, longestUnread);
  socket.on('data', () => silent.refresh());
  socket.once('end', end).once('close', () => {
    clearTimeout(silent);
    clearTimeout(late);
  });
  socket.end(text);
}
