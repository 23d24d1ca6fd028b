import type { EntityManager } from 'typeorm';

/** The driver's connection, as far as it is used here. */
interface Connection {
  query(statement: { name: string; text: string; values: unknown[] }): Promise<{ rows: unknown[] }>;
}

const isConnection = (value: unknown): value is Connection =>
  typeof value === 'object' && value !== null && 'query' in value && typeof value.query === 'function';

const names = new Map<string, string>();

/**
 * Runs a statement that each connection prepares once: what every append needs is parsed and planned once, not each time.
 * Only for texts that are constants of the program. In the manager's transaction, in the order of the calls.
 */
export async function prepared(manager: EntityManager, text: string, values: unknown[]): Promise<unknown[]> {
  const connection: unknown = await manager.queryRunner?.connect();
  if (!isConnection(connection)) throw new Error('a prepared statement runs in a transaction');
  let name = names.get(text);
  if (name === undefined) names.set(text, (name = `furrowmark_${names.size + 1}`));
  return (await connection.query({ name, text, values })).rows;
}
