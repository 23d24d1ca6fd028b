import { Injectable } from '@nestjs/common';
import type { Request } from 'express';
import { z } from 'zod';
import { OperationScope } from '../database/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { reachParameters, withinReach } from './reach.ts';
import { readable, type Looks } from './readable.ts';
import type { Reach } from './roles.ts';

const there = z.array(z.object({ there: z.boolean() }));

/** Keeps reading links to what they may read. */
@Injectable()
export class LinkReach implements Looks {
  constructor(private readonly scope: OperationScope) {}

  /** Ends a request that goes beyond the link's reach: 403, or 404 for a thing that has no record within it. */
  async allow(request: Request, operationId: string, reach: Reach): Promise<void> {
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      throw new ProblemAnswer('forbidden', 'This link only reads.');
    }
    const route: unknown = request.route;
    const path: unknown = typeof route === 'object' && route !== null ? Reflect.get(route, 'path') : undefined;
    const below = typeof path === 'string' ? path.replace(/^\/api\/v1\/operations\/:operationId\/?/, '') : '';
    const look = Object.hasOwn(readable, below) ? readable[below] : undefined;
    if (look === undefined) throw new ProblemAnswer('forbidden', 'This link does not open that.');
    await look({ operationId, request, reach, looks: this });
  }

  named(operationId: string, id: string, reach: Reach): Promise<boolean> {
    return this.#ask(
      operationId,
      `SELECT EXISTS (
         SELECT FROM mention m JOIN log_entry e ON e.operation_id = m.operation_id AND e.seq = m.seq
          WHERE m.operation_id = $1 AND m.subject_id = $2 AND e.occurred_at >= $3 AND e.occurred_at < $4) AS there`,
      [id, ...reachParameters(reach)],
    );
  }

  document(operationId: string, sha256: string, reach: Reach): Promise<boolean> {
    return this.#ask(
      operationId,
      `SELECT EXISTS (
         SELECT FROM log_entry e WHERE e.operation_id = $1 AND e.type = 'document.attached'
            AND position($2::bytea IN e.bytes) > 0 AND e.occurred_at >= $3 AND e.occurred_at < $4) AS there`,
      [Buffer.from(`"sha256":"${sha256}"`), ...reachParameters(reach)],
    );
  }

  entries(operationId: string, from: number, to: number, reach: Reach): Promise<boolean> {
    if (!Number.isSafeInteger(from) || !Number.isSafeInteger(to)) return Promise.resolve(false);
    return this.#ask(
      operationId,
      `SELECT NOT EXISTS (
         SELECT FROM log_entry e WHERE e.operation_id = $1 AND e.seq >= $2 AND e.seq < $3 AND NOT ${withinReach('e', 4)}
       ) AS there`,
      [from, to, ...reachParameters(reach)],
    );
  }

  async #ask(operationId: string, question: string, parameters: readonly unknown[]): Promise<boolean> {
    const rows = await this.scope.run(operationId, (manager) => manager.query(question, [operationId, ...parameters]));
    return there.parse(rows)[0]?.there ?? false;
  }
}
