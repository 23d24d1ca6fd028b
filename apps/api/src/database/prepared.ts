import type { EntityManager } from 'typeorm';

/** The driver's connection, as far as it is used here. */
interface Connection {
  query(statement: string | { name?: string; text: string; values: unknown[] }): Promise<Answer>;
}

interface Answer {
  readonly rows: unknown[];
  /** What was done: `SELECT`, `COMMIT` …; PostgreSQL answers `ROLLBACK` to the COMMIT of a transaction that failed. */
  readonly command: string;
}

const isConnection = (value: unknown): value is Connection =>
  typeof value === 'object' && value !== null && 'query' in value && typeof value.query === 'function';

const connections = new WeakMap<EntityManager, Connection>();

/** The connection that a manager's statements travel on: those given to it together travel together, in their order. */
export async function connectionOf(manager: EntityManager): Promise<Connection> {
  const connection: unknown = await manager.queryRunner?.connect();
  if (!isConnection(connection)) throw new Error('a statement of a transaction has no connection');
  connections.set(manager, connection);
  return connection;
}

const names = new Map<string, string>();

/** The statement as each connection prepares it once. */
export function named(text: string, values: unknown[]): { name: string; text: string; values: unknown[] } {
  let name = names.get(text);
  if (name === undefined) names.set(text, (name = `furrowmark_${names.size + 1}`));
  return { name, text, values };
}

/**
 * Runs a statement that each connection prepares once: what every append needs is parsed and planned once, not each time.
 * Only for texts that are constants of the program. In the manager's transaction, in the order of the calls: it has been
 * sent when the call returns, so a COMMIT that is sent next comes after it.
 */
export async function prepared(manager: EntityManager, text: string, values: unknown[]): Promise<unknown[]> {
  const connection = connections.get(manager) ?? (await connectionOf(manager));
  return (await connection.query(named(text, values))).rows;
}
