import { createServer, type Server } from 'node:http';
import { connect } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { answerUnreadable } from './unreadable.ts';

let server: Server;
let port = 0;
beforeAll(async () => {
  server = createServer((request, response) => {
    if (request.url !== '/early') return response.end('read');
    request.resume();
    return response.write('early');
  });
  answerUnreadable(server);
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  port = Number(Object(server.address()).port);
});
afterAll(() => void server.close());

/** Sends bytes, then more in pieces with pauses between, and something that is no chunk once an answer begins; gives all that comes back. */
function sent(bytes: string, after: readonly string[] = []): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', async () => {
      socket.write(bytes, 'latin1');
      for (const piece of after) {
        socket.write(piece);
        await pause(30);
      }
    });
    let text = '';
    socket.on('data', (chunk) => {
      text += chunk;
      if (text.includes('early')) socket.write('no chunk\r\n');
    });
    socket.once('end', () => resolve(text));
    setTimeout(() => socket.destroy(new Error(`no end: ${text}`)), 8_000).unref();
    socket.once('error', reject);
  });
}

describe('what never becomes a request', () => {
  it.each([
    ['no HTTP at all', 'hello\r\n\r\n'],
    ['a method that HTTP does not know', 'BREW /pot HTTP/1.1\r\nHost: x\r\n\r\n'],
    ['NUL in a header', 'GET / HTTP/1.1\r\nHost: x\r\nX: a\0b\r\n\r\n'],
    ['two lengths (RFC 9112 §6.3)', 'POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 3\r\nContent-Length: 4\r\n\r\nabcd'],
    ['a head of 20 KiB', `GET / HTTP/1.1\r\nHost: x\r\nX: ${'x'.repeat(20_000)}\r\n\r\n`],
    ['an expectation that nobody can meet', 'GET / HTTP/1.1\r\nHost: x\r\nExpect: rain\r\nConnection: close\r\n\r\n'],
  ])('%s is answered with a problem', async (_name, bytes) => {
    const [head = '', body = ''] = (await sent(bytes)).split('\r\n\r\n');
    expect(head).toMatch(/^HTTP\/1\.1 400 /);
    expect(head.toLowerCase()).toContain('content-type: application/problem+json');
    const text = body.slice(body.indexOf('{'), body.lastIndexOf('}') + 1); // its chunk sizes left out
    expect(JSON.parse(text)).toMatchObject({ type: '/problems/bad-request', status: 400 });
  });

  it.each([
    ['a head of 20 KiB', `POST / HTTP/1.1\r\nHost: x\r\nX: ${'x'.repeat(20_000)}\r\nContent-Length: 1100000\r\n\r\n`],
    ['no HTTP at all', 'hello\r\n\r\n'],
    [
      'an expectation that nobody can meet',
      'POST / HTTP/1.1\r\nHost: x\r\nExpect: rain\r\nContent-Length: 1100000\r\n\r\n',
    ],
    ['a tunnel', 'CONNECT other.example:443 HTTP/1.1\r\nHost: other.example:443\r\n\r\n'],
  ])('%s: a sender that goes on writing a megabyte gets to read the answer', async (_name, head) => {
    const told = await Promise.all(
      Array.from({ length: 20 }, (_, i) =>
        // Half write all of it at once, half take a third of a second.
        (i % 2 === 0 ? sent(head + 'x'.repeat(1_100_000)) : sent(head, Array(11).fill('x'.repeat(100_000)))).catch(
          (error: Error) => error.message,
        ),
      ),
    );
    expect(told.filter((text) => !/^HTTP\/1\.1 40[05] /.test(text))).toEqual([]);
  });

  it.each([
    ['a head of 20 KiB', `POST / HTTP/1.1\r\nHost: x\r\nX: ${'x'.repeat(20_000)}\r\nContent-Length: 1100000\r\n\r\n`],
    ['no HTTP at all', 'hello\r\n\r\n'],
  ])('%s: a sender who reads only after four seconds of writing gets to read the answer', async (_name, head) => {
    const text = await new Promise<string>((resolve, reject) => {
      let told = '';
      const socket = connect({ port, host: '127.0.0.1', allowHalfOpen: true }, async () => {
        socket.pause().write(head, 'latin1');
        for (let piece = 0; piece < 10; piece += 1) {
          await pause(400);
          socket.write('x'.repeat(100_000));
        }
        socket.resume().end();
      });
      socket.on('data', (chunk) => (told += chunk));
      socket.once('close', () => resolve(told)).once('error', reject);
    });
    expect(text).toMatch(/^HTTP\/1\.1 400 /);
  });

  it('a tunnel is refused with a problem', async () => {
    const text = await sent('CONNECT other.example:443 HTTP/1.1\r\nHost: other.example:443\r\n\r\n');
    expect(text).toMatch(/^HTTP\/1\.1 405 Method Not Allowed\r\n/);
    expect(JSON.parse(text.split('\r\n\r\n')[1] ?? '')).toMatchObject({ type: '/problems/method-not-allowed' });
  });

  it('a sender that never stops is cut off', async () => {
    const began = Date.now();
    await new Promise<void>((done) => {
      const socket = connect({ port, host: '127.0.0.1', allowHalfOpen: true }, () => socket.write('hello\r\n\r\n'));
      const more = setInterval(() => socket.write('more '), 50);
      socket.resume().once('error', () => undefined);
      socket.once('close', () => {
        clearInterval(more);
        done();
      });
    });
    expect(Date.now() - began).toBeLessThan(15_000);
  });

  it('nothing is written into an answer that began before the body went wrong', async () => {
    const text = await sent('POST /early HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\n');
    expect(text).toContain('early');
    expect(text.match(/HTTP\/1\.1/g)).toHaveLength(1);
  });

  it('what is HTTP goes its way', async () => {
    expect(await sent('GET / HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n')).toContain('read');
  });
});
