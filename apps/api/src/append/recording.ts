import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { OperationScope } from '../database/index.ts';
import type { Head } from '../log/index.ts';
import { Appender } from './appender.ts';
import type { Appended } from './outcome.ts';
import type { Prepared, Refused } from './prepare.ts';

/** Appends inside the transaction, in the name of an account. To be called last, and once. */
export type Entering = (accountId: string, entries: readonly (Prepared | Refused)[]) => Promise<Appended>;

/** What changes rows and records that it did: both in one transaction, so that neither stands without the other. */
@Injectable()
export class Recording {
  constructor(
    private readonly scope: OperationScope,
    private readonly appender: Appender,
  ) {}

  async run<T>(operationId: string, work: (manager: EntityManager, enter: Entering) => Promise<T>): Promise<T> {
    const written: { head?: Head } = {};
    const result = await this.scope.run(operationId, (manager) =>
      work(manager, async (accountId, entries) => {
        const { answer, head } = await this.appender.write(manager, operationId, { accountId, entries });
        written.head = head;
        return answer;
      }),
    );
    if (written.head !== undefined) this.appender.stands(operationId, written.head);
    return result;
  }
}
