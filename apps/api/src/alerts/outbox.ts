import type { EntityManager } from 'typeorm';
import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import { isQuiet, isUrgent } from './quiet.ts';
import type { KeptChoice, Told } from './choices.ts';

/** Something to tell: what is due by when, or what broke a limit, since when. */
export interface Alert {
  readonly kind: 'due' | 'broken';
  readonly findingId: string;
  readonly ruleId: string;
  /** The code that people write on the thing. */
  readonly code: string;
  /** ms */
  readonly at: number;
  /** What is to be done, or the rule's words on what broke. */
  readonly what: string;
}

const rows = z.array(
  z
    .object({
      kind: z.enum(['due', 'broken']),
      finding_id: z.string(),
      rule_id: z.string(),
      subject_code: z.string(),
      due_at: z.date(),
      what: z.string(),
      letter_id: z.string().nullable(),
      put_at: z.date(),
    })
    .transform((row) => ({
      kind: row.kind,
      findingId: row.finding_id,
      ruleId: row.rule_id,
      code: row.subject_code,
      at: row.due_at.getTime(),
      what: row.what,
      letterId: row.letter_id,
      putAt: row.put_at.getTime(),
    })),
);
type Waiting = z.output<typeof rows>[number];

/** Alerts that go out together. The same letter tried again keeps its id, so that mailboxes show it once. */
export interface Bundle {
  readonly letterId: string;
  readonly alerts: readonly Alert[];
}

/** What telling depends on besides the person. */
export interface Now {
  readonly now: number;
  readonly timeZone: string;
  /** Whether what a finding's id names is still due or broken. */
  readonly stands: (findingId: string) => boolean;
}

/** Deadlines that the office keeps; all others are the tank's or the field's. */
const office: ReadonlySet<string> = new Set([
  ...['source-tested', 'source-suitable', 'additive-tested', 'record-complete', 'reference-known', 'record-timely'],
  ...['certifier-due', 'notify-certifier', 'input-approved', 'field-located', 'person-trained', 'compost-organic'],
  ...['compost-produce', 'harvest-organic', 'instrument-calibrated', 'equipment-calibrated', 'rule-book-adopted'],
]);

export function kindOf({ kind, ruleId }: Alert): Told {
  if (kind === 'broken') return 'broken';
  return office.has(ruleId) ? 'office' : 'tank';
}

/** Puts it down for everybody who wants to be told of it; what was put down once is not put down again. */
export async function put(
  manager: EntityManager,
  operationId: string,
  choices: readonly KeptChoice[],
  alerts: readonly Alert[],
  now: number,
): Promise<void> {
  const wanted = choices.flatMap((choice) =>
    alerts
      .filter((alert) => choice.tells.includes(kindOf(alert)))
      // What broke before somebody asked to be told stands among the findings.
      .filter(({ kind, at }) => kind === 'due' || at >= choice.since.getTime())
      .map((alert) => ({ alert, accountId: choice.accountId })),
  );
  if (wanted.length === 0) return;
  await manager.query(
    `INSERT INTO alert (operation_id, account_id, kind, finding_id, due_at, rule_id, subject_code, what, put_at)
     SELECT $1, g.account, g.kind, g.finding, g.at, g.rule, g.code, g.what, $9
       FROM unnest($2::uuid[], $3::text[], $4::uuid[], $5::timestamptz[], $6::text[], $7::text[], $8::text[])
            AS g (account, kind, finding, at, rule, code, what)
      WHERE g.kind = 'due' OR NOT EXISTS (
              SELECT FROM alert a WHERE a.operation_id = $1 AND a.account_id = g.account
                                    AND a.kind = 'broken' AND a.finding_id = g.finding)
     ON CONFLICT DO NOTHING`,
    [
      operationId,
      wanted.map(({ accountId }) => accountId),
      wanted.map(({ alert }) => alert.kind),
      wanted.map(({ alert }) => alert.findingId),
      wanted.map(({ alert }) => new Date(alert.at)),
      wanted.map(({ alert }) => alert.ruleId),
      wanted.map(({ alert }) => alert.code),
      wanted.map(({ alert }) => alert.what),
      new Date(now),
    ],
  );
}

/**
 * What goes out to the person now, and whether something waits for the quiet hours to end. What waited and no longer stands
 * (done, or mended, in the night) is not told any more.
 */
export async function bundlesFor(
  manager: EntityManager,
  operationId: string,
  { accountId, quiet }: KeptChoice,
  { now, timeZone, stands }: Now,
): Promise<{ readonly bundles: readonly Bundle[]; readonly held: boolean }> {
  const waiting = rows.parse(
    await manager.query(
      `SELECT kind, finding_id, rule_id, subject_code, due_at, what, letter_id, put_at FROM alert
        WHERE operation_id = $1 AND account_id = $2 AND sent_at IS NULL ORDER BY due_at, finding_id`,
      [operationId, accountId],
    ),
  );
  const night = isQuiet(quiet, now, timeZone);
  const past = waiting.filter(
    ({ letterId, putAt, findingId }) => letterId === null && putAt < now && !stands(findingId),
  );
  if (past.length > 0) {
    await manager.query(
      `DELETE FROM alert WHERE operation_id = $1 AND account_id = $2
          AND (kind, finding_id, due_at) IN (SELECT * FROM unnest($3::text[], $4::uuid[], $5::timestamptz[]))`,
      [operationId, accountId, ...keysOf(past)],
    );
  }
  const unsent = waiting.filter((each) => each.letterId === null && !past.includes(each));
  const fresh = unsent.filter(({ ruleId }) => !night || isUrgent(ruleId));
  const begun = Map.groupBy(
    waiting.filter(({ letterId }) => letterId !== null),
    ({ letterId }) => letterId ?? '',
  );
  const bundles: Bundle[] = [...begun].map(([letterId, alerts]) => ({ letterId, alerts }));
  if (fresh.length > 0) {
    const letterId = uuidv7();
    await manager.query(
      `UPDATE alert SET letter_id = $3
        WHERE operation_id = $1 AND account_id = $2 AND letter_id IS NULL AND sent_at IS NULL
          AND (kind, finding_id, due_at) IN (SELECT * FROM unnest($4::text[], $5::uuid[], $6::timestamptz[]))`,
      [operationId, accountId, letterId, ...keysOf(fresh)],
    );
    bundles.push({ letterId, alerts: fresh });
  }
  return { bundles, held: fresh.length < unsent.length };
}

const keysOf = (alerts: readonly Waiting[]) => [
  alerts.map(({ kind }) => kind),
  alerts.map(({ findingId }) => findingId),
  alerts.map(({ at }) => new Date(at)),
];

/** The mail server took it. */
export async function markSent(
  manager: EntityManager,
  operationId: string,
  accountId: string,
  letterId: string,
  now: number,
): Promise<void> {
  await manager.query(
    'UPDATE alert SET sent_at = $4 WHERE operation_id = $1 AND account_id = $2 AND letter_id = $3 AND sent_at IS NULL',
    [operationId, accountId, letterId, new Date(now)],
  );
  await manager.query('UPDATE alert_choice SET failure = NULL WHERE operation_id = $1 AND account_id = $2', [
    operationId,
    accountId,
  ]);
}
