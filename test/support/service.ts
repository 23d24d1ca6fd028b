import { randomUUID } from 'node:crypto';
import { startService, type Clock, type RunningService } from '@furrowmark/api';
import { testDatabase } from './database.ts';

/** An answer of the service, its body read. */
export interface Answer {
  readonly status: number;
  readonly headers: Headers;
  readonly text: string;
  /** The body as JSON; undefined where it is none. */
  readonly json: any; // eslint-disable-line @typescript-eslint/no-explicit-any -- a test reads what it expects and fails where it is not so
}

export type Role = 'manager' | 'recorder' | 'reviewer' | 'inspector';

/** An operation made for one test, and a token for each role in it. */
export interface TestOperation {
  readonly operationId: string;
  readonly tokens: Readonly<Record<Role, string>>;
  readonly accounts: Readonly<Record<Role, string>>;
}

/** The service, and what tests do with it. */
export class TestService {
  private constructor(readonly service: RunningService) {}

  static async start(options: { clock?: Clock; recordsInMemory?: number } = {}): Promise<TestService> {
    const { dataDir, databaseUrl } = await testDatabase();
    return new TestService(await startService({ dataDir, databaseUrl, log: 'error', ...options }));
  }

  get url(): string {
    return this.service.url;
  }

  close(): Promise<void> {
    return this.service.close();
  }

  async person(name: string): Promise<{ accountId: string; token: string }> {
    const { accountId } = await this.service.createAccount({ name });
    return { accountId, ...(await this.service.issueToken({ accountId, label: 'test' })) };
  }

  /** A new operation, "Quillfen Growers", with one person in each role. */
  async operation(): Promise<TestOperation> {
    const manager = await this.person('Ines');
    const created = await this.service.createOperation(
      { accountId: manager.accountId, name: 'Ines' },
      { name: 'Quillfen Growers', timeZone: 'America/New_York' },
    );
    if (!('operationId' in created)) throw new Error(created.refused.detail);
    const { operationId } = created;
    const others = { recorder: 'Ruth', reviewer: 'Rafael', inspector: 'Ivo' } as const;
    const tokens = { manager: manager.token, recorder: '', reviewer: '', inspector: '' };
    const accounts = { manager: manager.accountId, recorder: '', reviewer: '', inspector: '' };
    for (const role of ['recorder', 'reviewer', 'inspector'] as const) {
      const person = await this.person(others[role]);
      await this.service.grant({ operationId, accountId: person.accountId, role });
      tokens[role] = person.token;
      accounts[role] = person.accountId;
    }
    return { operationId, tokens, accounts };
  }

  async call(
    method: string,
    path: string,
    token?: string,
    body?: unknown,
    headers: Record<string, string> = {},
  ): Promise<Answer> {
    const answer = await fetch(this.url + path, {
      method,
      headers: {
        ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      ...(body === undefined
        ? {}
        : { body: typeof body === 'string' || body instanceof Uint8Array ? body : JSON.stringify(body) }),
    });
    const text = await answer.text();
    return { status: answer.status, headers: answer.headers, text, json: jsonOf(text) };
  }

  get(path: string, token?: string, headers?: Record<string, string>): Promise<Answer> {
    return this.call('GET', path, token, undefined, headers);
  }

  append(operationId: string, token: string, records: readonly unknown[]): Promise<Answer> {
    return this.call('POST', `/api/v1/operations/${operationId}/records`, token, { records });
  }
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** A note on a batch: the plainest record that anybody may write. */
export function note(text: string, more: Record<string, unknown> = {}): Record<string, unknown> & { id: string } {
  return {
    id: randomUUID(),
    type: 'batch.checked',
    version: 1,
    occurredAt: '2026-06-03T06:10:00-05:00',
    data: { batchId: '01976f00-0000-7000-8000-0000000000b1', note: text },
    ...more,
  };
}
