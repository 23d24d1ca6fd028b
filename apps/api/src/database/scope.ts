import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { connectionOf, named } from './prepared.ts';

const nameOperation = `SELECT set_config('app.operation_id', $1, true)`;

/**
 * Takes a statement that was sent (`prepared` sends at once) and that nothing waits for any more: it travels together with
 * the commit. Should it fail, the database takes everything back, and the whole run fails with it.
 */
export type AtLast = (statement: Promise<unknown>) => void;

/**
 * The only way to the rows of an operation, for reads too: one transaction in which the database shows and takes rows
 * of that operation and no other.
 */
@Injectable()
export class OperationScope {
  constructor(private readonly dataSource: DataSource) {}

  /** The rows of one statement that connections prepare, in a transaction that goes to the database and back once. */
  async ask(operationId: string, text: string, values: unknown[]): Promise<unknown[]> {
    const { asked } = await this.run(operationId, async (manager, atLast) => {
      const asked = (await connectionOf(manager)).query(named(text, values));
      atLast(asked);
      return { asked };
    });
    return (await asked).rows;
  }

  async run<T>(operationId: string, work: (manager: EntityManager, atLast: AtLast) => Promise<T>): Promise<T> {
    const runner = this.dataSource.createQueryRunner();
    try {
      const connection = await connectionOf(runner.manager);
      // Not awaited on their own: they travel with the first statement of the work, and are served before it.
      const under = [connection.query('BEGIN'), connection.query(named(nameOperation, [operationId]))];
      for (const statement of under) statement.catch(() => undefined);
      const last: Promise<unknown>[] = [];
      const atLast: AtLast = (statement) => {
        statement.catch(() => undefined);
        last.push(statement);
      };
      try {
        const result = await work(runner.manager, atLast);
        // Served after everything that was sent before it: a transaction in which something failed is not committed.
        const committed = connection.query('COMMIT');
        await together([...under, ...last, committed]);
        if ((await committed).command !== 'COMMIT') throw new Error('a statement of the transaction had failed');
        return result;
      } catch (error) {
        await Promise.allSettled([...under, ...last, connection.query('ROLLBACK')]);
        throw error;
      }
    } finally {
      await runner.release();
    }
  }
}

/** Waits for all, then fails with the first failure: no statement is left running behind an ended transaction. */
export async function together(statements: readonly Promise<unknown>[]): Promise<void> {
  for (const result of await Promise.allSettled(statements)) if (result.status === 'rejected') throw result.reason;
}
