import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';

/** What a question about accounts is about: only the rows of what is named here are seen and taken. */
export interface Named {
  readonly accountId?: string;
  readonly login?: string;
  /** The hash of a secret. */
  readonly secret?: Buffer;
  /** What failed attempts are counted for. */
  readonly attempt?: Buffer;
}

/** Names it to the database, for the rest of the transaction. */
export async function naming(manager: EntityManager, named: Named): Promise<void> {
  const settings = {
    'app.account_id': named.accountId,
    'app.login': named.login,
    'app.token': named.secret?.toString('hex'),
    'app.attempt': named.attempt?.toString('hex'),
  };
  for (const [setting, value] of Object.entries(settings)) {
    if (value !== undefined) await manager.query('SELECT set_config($1, $2, true)', [setting, value]);
  }
}

/** The only way to the rows of accounts: one transaction in which the database shows what is named and nothing else. */
@Injectable()
export class AccountScope {
  constructor(private readonly dataSource: DataSource) {}

  run<T>(named: Named, work: (manager: EntityManager) => Promise<T>): Promise<T> {
    return this.dataSource.transaction(async (manager) => {
      await naming(manager, named);
      return work(manager);
    });
  }
}
