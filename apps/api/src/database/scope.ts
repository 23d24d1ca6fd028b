import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { prepared } from './prepared.ts';

/**
 * The only way to the rows of an operation, for reads too: one transaction in which the database shows and takes rows
 * of that operation and no other.
 */
@Injectable()
export class OperationScope {
  constructor(private readonly dataSource: DataSource) {}

  async run<T>(operationId: string, work: (manager: EntityManager) => Promise<T>): Promise<T> {
    const runner = this.dataSource.createQueryRunner();
    try {
      await runner.connect();
      await runner.startTransaction();
      // Not awaited on its own: it travels with the first statement of the work, and is served before it.
      const named = prepared(runner.manager, `SELECT set_config('app.operation_id', $1, true)`, [operationId]);
      named.catch(() => undefined);
      const result = await work(runner.manager);
      await named;
      await runner.commitTransaction();
      return result;
    } catch (error) {
      await runner.rollbackTransaction().catch(() => undefined);
      throw error;
    } finally {
      await runner.release();
    }
  }
}
