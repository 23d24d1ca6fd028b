import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import type { Duplex } from 'node:stream';
import { codeOf } from '../error-code.ts';
import { drain } from './json-body.ts';
import { problemBody } from './problem.ts';

const why: Readonly<Record<string, string>> = {
  HPE_HEADER_OVERFLOW: 'The address and the headers together are larger than 16 KiB.',
  ERR_HTTP_REQUEST_TIMEOUT: 'The request took too long to arrive.',
};

/**
 * Answers what never becomes a request: a method, header or length that HTTP does not know, a head that is too large, an
 * expectation that nobody can meet. A problem, like every other error.
 */
export function answerUnreadable(server: Server): void {
  const answers = new WeakMap<Duplex, ServerResponse>();
  const answered = new WeakSet<Duplex>();
  server.on('request', (request: IncomingMessage, response: ServerResponse) => answers.set(request.socket, response));
  server.on('clientError', (error: Error, socket: Duplex) => {
    // What a sender still writes after its answer is no HTTP either, and is let go by.
    if (answered.has(socket)) return;
    const code = codeOf(error) ?? '';
    if (code === 'ECONNRESET' || !socket.writable) {
      socket.destroy();
      return;
    }
    const last = answers.get(socket);
    if (last?.headersSent === true && !last.writableFinished) {
      // The body goes wrong only after its answer began: that one stands, and nothing may be written into it.
      answered.add(socket);
      lastWord(socket, '');
      return;
    }
    const body = problem(why[code] ?? 'This is not HTTP as it is written (RFC 9112).');
    const head = `HTTP/1.1 400 Bad Request\r\nContent-Type: application/problem+json\r\nCache-Control: no-store\r\nConnection: close\r\nContent-Length: ${Buffer.byteLength(body)}\r\n\r\n`;
    answered.add(socket);
    lastWord(socket, head + body);
  });
  server.on('checkExpectation', (request: IncomingMessage, response: ServerResponse) => {
    drain(request);
    response
      .writeHead(400, { 'Content-Type': 'application/problem+json', 'Cache-Control': 'no-store', Connection: 'close' })
      .end(problem('The only expectation that can be met is 100-continue.'));
  });
}

/** How long a sender that goes on writing is heard out, in ms. */
const patience = 2_000;

/**
 * Writes the last of an answer and ends our side; what still comes is let go by until the sender ends its own, or two
 * seconds have passed. Closed at once upon a sender that is still writing, the system throws the answer away with the rest.
 */
function lastWord(socket: Duplex, text: string): void {
  const late = setTimeout(() => socket.destroy(), patience);
  socket.once('end', () => socket.destroy());
  socket.once('close', () => clearTimeout(late));
  socket.end(text);
  socket.resume();
}

const problem = (detail: string): string => JSON.stringify(problemBody('bad-request', detail));
