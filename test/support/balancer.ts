import { createServer, request } from 'node:http';

/** What stands before several services: each request goes to the next one in turn. */
export interface Balancer {
  readonly url: string;
  /** Where requests go; changed when a service is started anew. */
  readonly services: string[];
  /** How many requests each address answered. */
  readonly answered: Map<string, number>;
  close(): Promise<void>;
}

/**
 * A reverse proxy as it stands before replicas: in turn, to the next where one does not take the connection, and without
 * trying again what may have arrived.
 */
export async function startBalancer(...services: string[]): Promise<Balancer> {
  let turn = 0;
  const answered = new Map<string, number>();
  const server = createServer((incoming, outgoing) => {
    // Whole first, so that it can go to the next service where one does not take it.
    const body: Buffer[] = [];
    const pass = (tries: number): void => {
      const target = services[(turn += 1) % services.length] ?? '';
      const { hostname, port } = new URL(target);
      const headers = { ...incoming.headers, 'x-forwarded-for': incoming.socket.remoteAddress ?? '' };
      const passed = request({ hostname, port, method: incoming.method, path: incoming.url, headers }, (answer) => {
        answered.set(target, (answered.get(target) ?? 0) + 1);
        outgoing.writeHead(answer.statusCode ?? 502, answer.headers);
        answer.pipe(outgoing);
        answer.once('error', () => outgoing.destroy());
      });
      passed.once('error', (error) => {
        const refused = 'code' in error && error.code === 'ECONNREFUSED';
        if (refused && tries < services.length) pass(tries + 1);
        else outgoing.destroy();
      });
      passed.end(Buffer.concat(body));
    };
    incoming.on('data', (chunk: Buffer) => body.push(chunk));
    incoming.once('end', () => pass(1));
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('no free port');
  return {
    url: `http://127.0.0.1:${address.port}`,
    services,
    answered,
    close: () => {
      server.closeAllConnections();
      return new Promise((closed) => server.close(() => closed()));
    },
  };
}
