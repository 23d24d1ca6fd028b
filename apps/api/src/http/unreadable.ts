import { STATUS_CODES, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { Duplex } from 'node:stream';
import { codeOf } from '../error-code.ts';
import { endAfter, lastWord } from './heard-out.ts';
import { problemBody, type ProblemBody } from './problem.ts';

const why: Readonly<Record<string, string>> = {
  HPE_HEADER_OVERFLOW: 'The address and the headers together are larger than 16 KiB.',
  ERR_HTTP_REQUEST_TIMEOUT: 'The request took too long to arrive.',
};

/**
 * Answers what never becomes a request: a method, header or length that HTTP does not know, a head that is too large, an
 * expectation that nobody can meet, a tunnel. A problem, like every other error.
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
    answered.add(socket);
    const last = answers.get(socket);
    // Where the body goes wrong only after its answer began, that one stands, and nothing may be written into it.
    const begun = last?.headersSent === true && !last.writableFinished;
    const detail = why[code] ?? 'This is not HTTP as it is written (RFC 9112).';
    lastWord(socket, begun ? '' : whole(problemBody('bad-request', detail)));
  });
  server.on('checkExpectation', (request: IncomingMessage, response: ServerResponse) => {
    const problem = problemBody('bad-request', 'The only expectation that can be met is 100-continue.');
    response.writeHead(problem.status, headers(problem));
    endAfter(request, response, JSON.stringify(problem));
  });
  server.on('connect', (_request: IncomingMessage, socket: Duplex) => {
    socket.on('error', () => socket.destroy());
    lastWord(socket, whole(problemBody('method-not-allowed', 'This is no proxy: it opens no way to another host.')));
  });
}

const headers = (problem: ProblemBody): Record<string, string | number> => ({
  'Content-Type': 'application/problem+json',
  'Cache-Control': 'no-store',
  Connection: 'close',
  'Content-Length': Buffer.byteLength(JSON.stringify(problem)),
});

/** An answer as it goes over the line. */
function whole(problem: ProblemBody): string {
  const lines = Object.entries(headers(problem)).map(([name, value]) => `${name}: ${value}`);
  const first = `HTTP/1.1 ${problem.status} ${STATUS_CODES[problem.status]}`;
  return `${[first, ...lines].join('\r\n')}\r\n\r\n${JSON.stringify(problem)}`;
}
