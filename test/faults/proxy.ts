import { connect, createServer, type Socket } from 'node:net';

/** What lies between the service and its database, and what it does to what passes. */
export interface Proxy {
  readonly port: number;
  /** Every connection is reset now; new ones come through. */
  cut(): void;
  /** Every connection is reset once so many more pieces have passed, whichever way; the last of them does not arrive. */
  cutAfter(pieces: number): void;
  /** Whether the cut that was asked for last has been made. */
  readonly hasCut: boolean;
  /** Everything is held back so long (milliseconds), both ways; 0: nothing is. */
  delay(milliseconds: number): void;
  /** Nothing comes through and nobody is told; what was sent meanwhile is lost with its connection. */
  silence(): void;
  /** As before. */
  heal(): void;
  close(): Promise<void>;
}

/** A TCP proxy on a free port of this machine. */
export async function startProxy(target: number): Promise<Proxy> {
  const open = new Set<Socket>();
  let held = 0;
  let silent = false;
  let left = Infinity;

  const cut = (): void => {
    for (const socket of open) socket.resetAndDestroy();
  };
  const pass = (from: Socket, to: Socket): void => {
    from.on('data', (bytes: Buffer) => {
      if (silent) return void lost.add(from).add(to);
      left -= 1;
      if (left === 0) return cut();
      // Timers of equal length keep their order; a shorter delay never overtakes, for it waits for what is under way.
      const due = Math.max(performance.now() + held, ready.get(to) ?? 0);
      ready.set(to, due);
      const wait = due - performance.now();
      if (wait <= 0.5) to.write(bytes);
      else setTimeout(() => to.writable && to.write(bytes), wait);
    });
    from.on('error', () => to.destroy());
    from.on('close', () => {
      open.delete(from);
      to.destroy();
    });
  };
  const ready = new WeakMap<Socket, number>();
  const lost = new Set<Socket>();

  const server = createServer((client) => {
    const database = connect(target, '127.0.0.1');
    for (const socket of [client, database]) open.add(socket.setNoDelay(true));
    pass(client, database);
    pass(database, client);
  });
  await new Promise<void>((done, fail) => server.once('error', fail).listen(0, '127.0.0.1', done));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('no free port');
  return {
    port: address.port,
    cut,
    cutAfter: (pieces) => {
      left = pieces;
    },
    get hasCut() {
      return left <= 0;
    },
    delay: (milliseconds) => {
      held = milliseconds;
    },
    silence: () => {
      silent = true;
    },
    heal: () => {
      silent = false;
      held = 0;
      for (const socket of lost) socket.resetAndDestroy();
      lost.clear();
    },
    close: async () => {
      for (const socket of open) socket.destroy();
      await new Promise((done) => server.close(done));
    },
  };
}
