import { Injectable } from '@nestjs/common';
import { addMonths, dateOn, inspectionId as inspection } from '@furrowmark/domain';
import { v5 as uuidv5, v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import { Access, LinkUse, type Identity, type Member, type Period } from '../access/index.ts';
import { prepareOwn, Recording } from '../append/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { busy, notFound, ProblemAnswer } from '../http/index.ts';
import { Seasons } from '../views/index.ts';

/**
 * Records of an organic operation are kept for not less than five years beyond their creation (7 CFR 205.103(b)(3)), and
 * so far back an inspector may ask to read.
 */
const monthsBack = 60;
const day = 86_400_000;

const rows = z.array(
  z
    .object({
      access_id: z.string(),
      purpose: z.string().nullable(),
      inspection_id: z.string().nullable(),
      reads_from: z.string().nullable(),
      reads_until: z.string().nullable(),
      created_at: z.date(),
      expires_at: z.date(),
      withdrawn_at: z.date().nullable(),
      last_used_on: z.string().nullable(),
    })
    .transform((row) => ({
      accessId: row.access_id,
      purpose: row.purpose,
      inspectionId: row.inspection_id,
      from: row.reads_from,
      until: row.reads_until,
      createdAt: row.created_at.toISOString(),
      expiresAt: row.expires_at.toISOString(),
      withdrawnAt: row.withdrawn_at?.toISOString() ?? null,
      lastUsedOn: row.last_used_on,
    })),
);
export type ListedLink = z.output<typeof rows>[number];
const accounts = z.tuple([z.array(z.object({ account_id: z.string() })), z.number()]);

/** A reading link as a manager asks for it. */
export interface NewLink {
  readonly purpose?: string | undefined;
  readonly inspectionId?: string | undefined;
  readonly from?: string | undefined;
  readonly until?: string | undefined;
  readonly lifeDays: number;
}

/** Reading links for somebody outside, an inspector: made, used and withdrawn in the log. */
@Injectable()
export class ReadingLinks extends LinkUse {
  constructor(
    private readonly scope: OperationScope,
    private readonly recording: Recording,
    private readonly access: Access,
    private readonly seasons: Seasons,
    private readonly clock: Clock,
  ) {
    super();
  }

  list(operationId: string): Promise<ListedLink[]> {
    return this.scope.run(operationId, async (manager) =>
      rows.parse(
        await manager.query(
          `SELECT access_id, purpose, inspection_id, reads_from::text, reads_until::text, created_at, expires_at,
                  withdrawn_at, last_used_on::text
             FROM access_link WHERE operation_id = $1 ORDER BY created_at, access_id`,
          [operationId],
        ),
      ),
    );
  }

  /** A link and its secret, shown this once. Without `from` it reads since the last inspection. */
  async make(by: Member, input: NewLink): Promise<{ accessId: string; token: string; expiresAt: Date } & Period> {
    const now = this.clock.now();
    const reads = await this.#period(by.operationId, input, now);
    const expiresAt = new Date(now + input.lifeDays * day);
    const [accessId, accountId] = [uuidv7(), uuidv7()];
    return this.recording.run(by.operationId, async (manager, enter) => {
      await this.access.addAccount(manager, accountId, `Reading link: ${input.purpose ?? 'inspection'}`);
      const { operationId } = by;
      await this.access.addMember(manager, { operationId, accountId, role: 'inspector', what: 'link' });
      await manager.query(
        `INSERT INTO access_link (operation_id, access_id, account_id, purpose, inspection_id, reads_from, reads_until,
                                  granted_by, created_at, expires_at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
        [
          ...[operationId, accessId, accountId, input.purpose, input.inspectionId, reads.from, reads.until],
          ...[by.accountId, new Date(now), expiresAt],
        ],
      );
      const { token } = await this.access.addToken(manager, {
        accountId,
        label: 'reading link',
        kind: 'link',
        expiresAt,
        operationId,
        roleAtMost: 'inspector',
      });
      const data = {
        ...{ accessId, role: 'inspector' as const, expiresAt: expiresAt.toISOString() },
        ...{ purpose: input.purpose, from: reads.from ?? undefined, until: reads.until ?? undefined },
      };
      const named = input.inspectionId === undefined ? {} : { inspectionId: inspection.parse(input.inspectionId) };
      await enter(by.accountId, [prepareOwn({ type: 'access.granted', data: { ...data, ...named } }, now)]);
      return { accessId, token, expiresAt, ...reads };
    });
  }

  async withdraw(by: Member, accessId: string, reason?: string): Promise<void> {
    const now = this.clock.now();
    await this.recording.run(by.operationId, async (manager, enter) => {
      const [[link]] = accounts.parse(
        await manager.query(
          `UPDATE access_link SET withdrawn_at = $3
            WHERE operation_id = $1 AND access_id = $2 AND withdrawn_at IS NULL RETURNING account_id`,
          [by.operationId, accessId, new Date(now)],
        ),
      );
      if (link === undefined) throw notFound();
      await manager.query('UPDATE membership SET ended_at = $3 WHERE operation_id = $1 AND account_id = $2', [
        by.operationId,
        link.account_id,
        new Date(now),
      ]);
      await manager.query('UPDATE access_token SET withdrawn_at = $3 WHERE scope_operation = $1 AND account_id = $2', [
        by.operationId,
        link.account_id,
        new Date(now),
      ]);
      await enter(by.accountId, [prepareOwn({ type: 'access.withdrawn', data: { accessId, reason } }, now)]);
    });
  }

  /**
   * Records, once a day of the operation's zone, that the link was used. The record's id follows from link and day, so
   * that requests that come together, or to several processes, leave one record.
   */
  async note(operationId: string, { person, link, timeZone }: Identity): Promise<void> {
    const now = this.clock.now();
    const today = dateOn(now, timeZone ?? 'UTC');
    if (link === null || (link.lastUsedOn !== null && link.lastUsedOn >= today)) return;
    const data = { accessId: link.accessId, what: 'opened' };
    await this.recording.run(operationId, async (manager, enter) => {
      const used = accounts.parse(
        await manager.query(
          `UPDATE access_link SET last_used_on = $3 WHERE operation_id = $1 AND access_id = $2
              AND (last_used_on IS NULL OR last_used_on < $3) RETURNING account_id`,
          [operationId, link.accessId, today],
        ),
      );
      if (used[1] === 0) return;
      const record = prepareOwn({ type: 'access.used', data }, now, uuidv5(today, link.accessId));
      const { results } = await enter(person.accountId, [record]);
      if (results.some(({ status }) => status === 'refused')) throw busy();
    });
  }

  async #period(operationId: string, { from, until }: NewLink, now: number): Promise<Period> {
    const { zone, inspected } = await this.seasons.read(operationId, ({ season }) => ({
      zone: season.timeZone,
      inspected: season
        .ofType('inspection.held')
        .map(({ at }) => at.at)
        .filter((at) => at <= now)
        .at(-1),
    }));
    const earliest = addMonths(dateOn(now, zone), -monthsBack);
    const since = inspected === undefined ? earliest : dateOn(inspected, zone);
    const first = from ?? (since < earliest ? earliest : since);
    if (first < earliest) {
      throw new ProblemAnswer('invalid-body', `A link reads five years back at most: from ${earliest}.`, [
        { pointer: '/from', detail: `must not lie before ${earliest}` },
      ]);
    }
    if (until !== undefined && until < first) {
      throw new ProblemAnswer('invalid-body', `The period ends before it begins (${first}).`, [
        { pointer: '/until', detail: `must not lie before ${first}` },
      ]);
    }
    return { from: first, until: until ?? null };
  }
}
