import { Injectable } from '@nestjs/common';
import { v7 as uuidv7 } from 'uuid';
import type { Member, Person } from './access/index.ts';
import { Appender, prepare, type Refusal } from './append/index.ts';
import { Clock } from './clock.ts';
import { OperationScope } from './database/index.ts';
import { createHead } from './log/index.ts';

/** What an operation is first described as: the data of its `operation.described` record. */
export interface OperationDescription {
  readonly name: string;
  readonly timeZone: string;
  readonly elevation?: unknown;
  readonly regimes?: unknown;
  readonly [member: string]: unknown;
}

export type Created = { readonly operationId: string } | { readonly refused: Refusal };

/** Makes operations. */
@Injectable()
export class Operations {
  constructor(
    private readonly scope: OperationScope,
    private readonly appender: Appender,
    private readonly clock: Clock,
  ) {}

  /**
   * A new operation whose manager is the person: its log begins with `operation.described`. All in one transaction.
   * `occurredAt` (RFC 3339) is when the operation began, as the record will say; now, where left out.
   */
  async create(person: Person, description: OperationDescription, occurredAt?: string): Promise<Created> {
    const operationId = uuidv7();
    const now = new Date(this.clock.now());
    const member: Member = { ...person, operationId, role: 'manager' };
    const draft = {
      id: uuidv7(),
      type: 'operation.described',
      version: 1,
      occurredAt: occurredAt ?? now.toISOString(),
      data: description,
    };
    const entries = prepare([draft], member, now.getTime());
    const [first] = entries;
    if (first?.status === 'refused') return { refused: first.problem };
    const head = await this.scope.run(operationId, async (manager) => {
      await manager.query('INSERT INTO operation VALUES ($1, $2, $3, $4)', [
        operationId,
        description.name,
        description.timeZone,
        now,
      ]);
      await manager.query(`INSERT INTO membership VALUES ($1, $2, 'manager', $3)`, [
        operationId,
        person.accountId,
        now,
      ]);
      await createHead(manager, operationId);
      return (await this.appender.write(manager, operationId, { accountId: person.accountId, entries })).head;
    });
    this.appender.stands(operationId, head);
    return { operationId };
  }
}
