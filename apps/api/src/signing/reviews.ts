import { Injectable } from '@nestjs/common';
import type { CurrentRecord } from '@furrowmark/domain';
import { v7 as uuidv7 } from 'uuid';
import { z } from 'zod';
import { Pins, SignIn, type Member, type Via } from '../access/index.ts';
import { prepare, Recording } from '../append/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { notFound, ProblemAnswer } from '../http/index.ts';
import { int8, LogReader, readHead } from '../log/index.ts';
import { Seasons } from '../views/index.ts';

/** What a signature covers: the log when it had so many entries, and the root over them (base64). */
export interface Signed {
  readonly size: number;
  readonly root: string;
}

/** A review as it is signed. */
export interface NewReview {
  /** The record's id, so that sent again it is the same signature; a new one, where left out. */
  readonly id?: string | undefined;
  /** The last entry that the signer had before them; the newest, where left out. */
  readonly throughSeq?: number | undefined;
  readonly meaning: 'reviewed' | 'approved';
  readonly statement: string;
  readonly password?: string | undefined;
  readonly pin?: string | undefined;
}

/** A review as it is read. */
export interface Review {
  readonly recordId: string;
  readonly seq: number;
  readonly occurredAt: string;
  readonly recordedAt: string;
  readonly recordedBy: string;
  /** Name of the account, as it is now; null where the account has none here. */
  readonly name: string | null;
  readonly meaning: string;
  readonly statement: string;
  readonly throughSeq: number;
  /** null where the review speaks of entries that this log does not have. */
  readonly signed: Signed | null;
  /** How the signer proved again who they are; null: the record came without such proof. */
  readonly proof: 'password' | 'pin' | null;
  /** Records of the batch that came, amended or struck something, after what was signed. */
  readonly laterRecordIds: readonly string[];
  readonly coversCurrentState: boolean;
}

const rows = z.array(z.object({ record_id: z.string(), how: z.enum(['password', 'pin']) }));
const entries = z.array(
  z.object({
    bytes: z.instanceof(Buffer),
    how: z.enum(['password', 'pin']).nullable(),
    size: int8.nullable(),
    root: z.instanceof(Buffer).nullable(),
  }),
);
const written = z.object({
  type: z.literal('batch.reviewed'),
  ...{ seq: z.number(), recordedAt: z.string(), recordedBy: z.string() },
  data: z.object({ batchId: z.string(), throughSeq: z.number(), meaning: z.string(), statement: z.string() }),
});
const names = z.array(z.object({ account_id: z.string(), name: z.string() }));

/**
 * Electronic signatures on batches: who signs proves again who they are, says what the signature means, and signs the
 * log as it was when they looked at it: its size and its root.
 */
@Injectable()
export class Reviews {
  constructor(
    private readonly scope: OperationScope,
    private readonly recording: Recording,
    private readonly signIn: SignIn,
    private readonly pins: Pins,
    private readonly log: LogReader,
    private readonly seasons: Seasons,
    private readonly clock: Clock,
  ) {}

  /** Signs. 404 for an unknown batch, 422 for a state that the log does not have, 403 where the proof is wrong. */
  async sign(member: Member & { readonly via: Via }, batchId: string, review: NewReview) {
    const { operationId, accountId } = member;
    const newest = await this.seasons.read(operationId, ({ season }) =>
      season.batch(batchId) === undefined ? null : season.size - 1,
    );
    if (newest === null) throw notFound();
    const throughSeq = review.throughSeq ?? newest;
    const signed = await this.#stateAt(operationId, throughSeq);
    if (signed === null) {
      const detail = `must be the seq of an entry of the log: 0 to ${newest}`;
      throw new ProblemAnswer('invalid-body', `throughSeq ${detail}.`, [{ pointer: '/throughSeq', detail }]);
    }
    const how = await this.#prove(member, review);
    const id = review.id ?? uuidv7();
    const before = await this.#signedBefore(member, batchId, { ...review, id });
    if (before !== null) return before;
    const now = this.clock.now();
    const draft = {
      id,
      type: 'batch.reviewed',
      version: 1,
      occurredAt: new Date(now).toISOString(),
      data: { batchId, throughSeq, meaning: review.meaning, statement: review.statement },
    };
    const made = await this.recording.run(operationId, async (manager, enter) => {
      const { results, log } = await enter(accountId, prepare([draft], member, now));
      const [result] = results;
      // The same request arrived twice at once, and the other one was first.
      if (result?.status === 'duplicate') return null;
      if (result === undefined || result.status === 'refused') {
        if (review.id !== undefined && result?.problem.type === '/problems/id-reused') return null;
        const { detail, errors } = result?.problem ?? { detail: 'It was not recorded.', errors: [] };
        throw new ProblemAnswer('invalid-body', detail, errors);
      }
      await manager.query('INSERT INTO signature VALUES ($1, $2, $3, $4, $5, $6, $7)', [
        ...[operationId, draft.id, accountId, how, signed.size, Buffer.from(signed.root, 'base64'), new Date(now)],
      ]);
      const { seq, recordedAt } = result;
      return { recordId: draft.id, seq, recordedAt, throughSeq, signed, proof: how, log };
    });
    const answer = made ?? (await this.#signedBefore(member, batchId, { ...review, id }));
    if (answer === null) throw new Error('the signature was there, and is not');
    return answer;
  }

  /** The signature that this id stands for already; null where it stands for none. 409 where it stands for anything else. */
  async #signedBefore(
    { operationId, accountId }: Member,
    batchId: string,
    review: NewReview & { readonly id: string },
  ) {
    return this.scope.run(operationId, async (manager) => {
      const [entry] = entries.parse(
        await manager.query(
          `SELECT e.bytes, s.how, s.size, s.root FROM log_entry e
             LEFT JOIN signature s ON s.operation_id = e.operation_id AND s.record_id = e.record_id
            WHERE e.operation_id = $1 AND e.record_id = $2`,
          [operationId, review.id],
        ),
      );
      if (entry === undefined) return null;
      const kept = written.safeParse(JSON.parse(entry.bytes.toString('utf8')));
      const { data, seq, recordedAt, recordedBy } = kept.data ?? {};
      const same =
        data !== undefined &&
        recordedBy === accountId &&
        data.batchId === batchId &&
        data.meaning === review.meaning &&
        data.statement === review.statement &&
        (review.throughSeq === undefined || data.throughSeq === review.throughSeq);
      if (!same || entry.how === null || entry.size === null || entry.root === null) throw reused();
      const head = await readHead(manager, operationId);
      if (head === null) throw new Error(`the operation ${operationId} has no log`);
      return {
        ...{ recordId: review.id, seq, recordedAt, throughSeq: data.throughSeq, proof: entry.how },
        signed: { size: entry.size, root: entry.root.toString('base64') },
        log: { size: head.size, root: head.root.toString('base64') },
      };
    });
  }

  /** The reviews of a batch, the oldest first, and whether what they cover is still what is there. */
  async of(operationId: string, batchId: string): Promise<{ reviews: Review[]; asOfSeq: number }> {
    const found = await this.seasons.read(operationId, ({ season }) => {
      const batch = season.batch(batchId);
      if (batch === undefined) return null;
      // What an amendment turned to another batch since then is a change of this one too.
      const changes = changesOf([...batch.records, ...season.onceAbout(batchId)]);
      const asOfSeq = season.size - 1;
      return { asOfSeq, reviews: batch.reviews.map((review) => ({ review, later: laterThan(changes, review) })) };
    });
    if (found === null) throw notFound();
    const { proofs, accounts } = await this.scope.run(operationId, async (manager) => ({
      proofs: rows.parse(
        await manager.query(
          'SELECT record_id, how FROM signature WHERE operation_id = $1 AND record_id = ANY($2::uuid[])',
          [operationId, found.reviews.map(({ review }) => review.id)],
        ),
      ),
      accounts: names.parse(
        await manager.query('SELECT account_id, name FROM account WHERE account_id = ANY($1::uuid[])', [
          found.reviews.map(({ review }) => review.recordedBy),
        ]),
      ),
    }));
    const reviews = found.reviews.map(async ({ review, later }): Promise<Review> => {
      const { id, seq, occurredAt, recordedAt, recordedBy, data } = review;
      return {
        ...{ recordId: id, seq, occurredAt, recordedAt, recordedBy },
        name: accounts.find((account) => account.account_id === recordedBy)?.name ?? null,
        ...{ meaning: data.meaning, statement: data.statement, throughSeq: data.throughSeq },
        // What a review speaks of was there when it was made; a later entry is none of its business.
        signed: data.throughSeq < seq ? await this.#stateAt(operationId, data.throughSeq) : null,
        proof: proofs.find((proof) => proof.record_id === id)?.how ?? null,
        laterRecordIds: later,
        coversCurrentState: later.length === 0,
      };
    });
    return { reviews: await Promise.all(reviews), asOfSeq: found.asOfSeq };
  }

  async #stateAt(operationId: string, throughSeq: number): Promise<Signed | null> {
    const proof = await this.log.inclusion(operationId, throughSeq, throughSeq + 1);
    return proof && { size: proof.size, root: proof.root };
  }

  async #prove({ operationId, accountId, via }: Member & { readonly via: Via }, { password, pin }: NewReview) {
    if (password !== undefined) {
      if (await this.signIn.reauthenticate(accountId, password)) return 'password';
      throw wrong('/password', 'The password is not right, or you have none yet. Nothing was signed.');
    }
    if (pin !== undefined && via.kind === 'pin') {
      if ((await this.pins.check(operationId, accountId, pin)) !== null) return 'pin';
      throw wrong('/pin', 'The PIN is not right. Nothing was signed.');
    }
    const detail = 'is needed to sign (on a shared phone where you are signed in: your PIN)';
    throw new ProblemAnswer('invalid-body', `Your password ${detail}.`, [{ pointer: '/password', detail }]);
  }
}

const reused = (): ProblemAnswer =>
  new ProblemAnswer('conflict', 'This id stands for something else. Take a new one. Nothing was signed.', [
    { pointer: '/id', detail: 'was used before' },
  ]);

const wrong = (pointer: string, detail: string): ProblemAnswer =>
  new ProblemAnswer('forbidden', detail, [{ pointer, detail: 'is not right' }]);

/** Everything that made up or changed what the batch's record says: its records, their amendments and strikes. */
function changesOf(records: readonly CurrentRecord[]): readonly { readonly id: string; readonly seq: number }[] {
  return records
    .filter(({ type }) => type !== 'batch.reviewed')
    .flatMap(({ id, seq, history }) => [
      { id, seq },
      ...history.filter(({ kind }) => kind !== 'original').map((step) => ({ id: step.recordId, seq: step.seq })),
    ]);
}

function laterThan(
  changes: ReturnType<typeof changesOf>,
  { data }: CurrentRecord<'batch.reviewed'>,
): readonly string[] {
  const later = changes.filter(({ seq }) => seq > data.throughSeq).toSorted((a, b) => a.seq - b.seq);
  return [...new Set(later.map(({ id }) => id))];
}
