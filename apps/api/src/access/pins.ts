import { Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { Access } from './access.ts';
import { Attempts } from './attempts.ts';
import { hashOf, isRight, pinWeakness } from './passwords.ts';
import type { Person } from './roles.ts';

/** Whoever walks away from the phone is signed out after half an hour, and at the end of a long day in any case. */
const idleMinutes = 30;
const sessionDays = 0.5;
/** A PIN is short, so the waits get long. */
const longestWaitMinutes = 24 * 60;

const people = z.array(
  z.object({ account_id: z.string(), name: z.string() }).transform((row) => ({
    accountId: row.account_id,
    name: row.name,
  })),
);
const hashes = z.array(z.object({ hash: z.string(), name: z.string() }));

/** Short PINs of the people who share a phone: worth something on a phone of the operation only. */
@Injectable()
export class Pins {
  constructor(
    private readonly scope: OperationScope,
    private readonly access: Access,
    private readonly attempts: Attempts,
    private readonly clock: Clock,
  ) {}

  /** Who may sign in with a PIN on this phone. */
  people({ via }: Person): Promise<{ readonly accountId: string; readonly name: string }[]> {
    const operationId = via?.operationId;
    if (via?.kind !== 'phone' || typeof operationId !== 'string') return Promise.resolve([]);
    return this.scope.run(operationId, async (manager) =>
      people.parse(
        await manager.query(
          `SELECT a.account_id, a.name FROM pin p
             JOIN membership m ON m.operation_id = p.operation_id AND m.account_id = p.account_id AND m.ended_at IS NULL
             JOIN account a ON a.account_id = p.account_id
            WHERE p.operation_id = $1 ORDER BY a.name, a.account_id`,
          [operationId],
        ),
      ),
    );
  }

  /** 422 where a PIN will not do. */
  assertFit(pin: string): void {
    const weak = pinWeakness(pin);
    if (weak !== null) throw new ProblemAnswer('invalid-body', `The PIN ${weak}.`, [{ pointer: '/pin', detail: weak }]);
  }

  /**
   * Sets a member's PIN, ends what was begun with the one before, and lets go of the wait that wrong ones brought about.
   * 422 where it will not do.
   */
  async set(operationId: string, accountId: string, pin: string): Promise<void> {
    this.assertFit(pin);
    const hash = await hashOf(pin);
    await this.scope.run(operationId, async (manager) => {
      await manager.query(
        `INSERT INTO pin VALUES ($1, $2, $3, $4) ON CONFLICT (operation_id, account_id)
         DO UPDATE SET hash = EXCLUDED.hash, changed_at = EXCLUDED.changed_at`,
        [operationId, accountId, hash, new Date(this.clock.now())],
      );
      await this.#endSessions(manager, operationId, accountId);
    });
    await this.attempts.forget(['pin', operationId, accountId]);
  }

  /** Takes a member's PIN away, and ends what was begun with it on shared phones. */
  async remove(operationId: string, accountId: string): Promise<void> {
    await this.scope.run(operationId, async (manager) => {
      await manager.query('DELETE FROM pin WHERE operation_id = $1 AND account_id = $2', [operationId, accountId]);
      await this.#endSessions(manager, operationId, accountId);
    });
  }

  async #endSessions(manager: EntityManager, operationId: string, accountId: string): Promise<void> {
    await manager.query(
      `UPDATE access_token SET withdrawn_at = $3
        WHERE scope_operation = $1 AND account_id = $2 AND kind = 'pin' AND withdrawn_at IS NULL`,
      [operationId, accountId, new Date(this.clock.now())],
    );
  }

  /** The member's name and the PIN's hash where the PIN is right; null where it is not, or there is none. */
  async check(
    operationId: string,
    accountId: string,
    pin: string,
  ): Promise<{ readonly name: string; readonly hash: string } | null> {
    return this.attempts.attempt(['pin', operationId, accountId], longestWaitMinutes, async () => {
      const [found] = await this.scope.run(operationId, async (manager) =>
        hashes.parse(
          await manager.query(
            `SELECT p.hash, a.name FROM pin p
               JOIN membership m ON m.operation_id = p.operation_id AND m.account_id = p.account_id AND m.ended_at IS NULL
               JOIN account a ON a.account_id = p.account_id
              WHERE p.operation_id = $1 AND p.account_id = $2`,
            [operationId, accountId],
          ),
        ),
      );
      return (await isRight(pin, found?.hash ?? null)) && found !== undefined ? found : null;
    });
  }

  /**
   * A session on a shared phone: in the phone's operation only, at most a reviewer there, and over when the phone's own
   * token is withdrawn. null where the PIN is not right.
   */
  async signIn(
    phone: Person,
    accountId: string,
    pin: string,
  ): Promise<{ person: Person; token: string; expiresAt: Date | null } | null> {
    const operationId = phone.via?.operationId;
    if (phone.via?.kind !== 'phone' || typeof operationId !== 'string') return null;
    const found = await this.check(operationId, accountId, pin);
    if (found === null) return null;
    const through = phone.via.tokenId;
    return this.scope.run(operationId, async (manager) => {
      // Whoever changed the PIN or took it away while it was looked at must not find a session of it afterwards.
      const still: unknown = await manager.query(
        'SELECT 1 FROM pin WHERE operation_id = $1 AND account_id = $2 AND hash = $3 FOR SHARE',
        [operationId, accountId, found.hash],
      );
      if (!Array.isArray(still) || still.length === 0) return null;
      const { token, expiresAt } = await this.access.addToken(manager, {
        ...{ accountId, label: 'shared phone', kind: 'pin', lifeDays: sessionDays, idleMinutes },
        ...{ operationId, roleAtMost: 'reviewer', through },
      });
      return { person: { accountId, name: found.name }, token, expiresAt };
    });
  }
}
