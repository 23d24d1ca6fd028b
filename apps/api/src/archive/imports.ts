import type { Readable } from 'node:stream';
import { Readable as Stream } from 'node:stream';
import { Injectable } from '@nestjs/common';
import { isRecordType, mentions, openSeason, recordFromLog } from '@furrowmark/domain';
import { equalBytes, linesOf, memberOf, NotReadable, parseNote, type VerifierKey } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import type { Person } from '../access/index.ts';
import { writeEntries, type NewEntry } from '../append/index.ts';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { Documents, type StoredDocument } from '../documents/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { createHead, keepCheckpoint, readHead, unsealed } from '../log/index.ts';
import { readRecords, writeBatches, writeDescription } from '../views/index.ts';
import { examined, type Examined } from './examined.ts';
import { received, TooMuch, type Received } from './received.ts';

/** An archive has at most so many bytes (4 GiB). */
const mostBytes = 4 * 2 ** 30;
const inOneStatement = 1_000;

/** What came in. */
export interface Imported {
  readonly operationId: string;
  readonly size: number;
  /** Base64. */
  readonly root: string;
  readonly readOnly: true;
  /** The verifier key line that the archive presents; compare it with one from outside. */
  readonly key: string | null;
  readonly documents: { readonly taken: number; readonly notTaken: readonly string[] };
}

/** Takes whole-operation archives: the same bytes, the same root. Only read here until somebody takes the log over. */
@Injectable()
export class Imports {
  constructor(
    private readonly scope: OperationScope,
    private readonly documents: Documents,
    private readonly clock: Clock,
  ) {}

  /** True where the operation is here; `member` where the person belongs to it. */
  async known(operationId: string, accountId: string): Promise<{ here: boolean; member: boolean }> {
    return this.scope.run(operationId, async (manager) => {
      const found: unknown = await manager.query(
        'SELECT 1 FROM membership WHERE operation_id = $1 AND account_id = $2 AND ended_at IS NULL',
        [operationId, accountId],
      );
      const member = Array.isArray(found) && found.length > 0;
      return { here: (await readHead(manager, operationId)) !== null, member };
    });
  }

  /** 422 with what is wrong where the archive is not what it says; 409 where the operation is here already. */
  take(
    person: Person,
    source: Readable,
    wish: { readonly key?: VerifierKey | null; readonly operationId?: string } = {},
  ): Promise<Imported> {
    return received(source, mostBytes, async (archive) => {
      const found = await examined(archive, wish.key ?? null, this.clock.now());
      if ('faults' in found) throw refused(found.faults);
      const { operationId, size, root, key } = found;
      if (wish.operationId !== undefined && wish.operationId !== operationId)
        throw refused([`The archive is of the operation ${operationId}, not of the one in the address.`]);
      if ((await this.known(operationId, person.accountId)).here)
        throw new ProblemAnswer('conflict', `The operation ${operationId} is here already.`);
      await this.scope.run(operationId, (manager) => this.#write(manager, person, archive, found));
      const documents = await this.#documents(person, archive, operationId);
      return { operationId, size, root: Buffer.from(root).toString('base64'), readOnly: true as const, key, documents };
    }).catch((error: unknown) => {
      if (error instanceof NotReadable) throw refused([`The archive cannot be read: ${error.message}.`]);
      if (error instanceof TooMuch) throw new ProblemAnswer('too-large', 'An archive has at most 4 GiB.');
      throw error;
    });
  }

  async #write(manager: EntityManager, person: Person, archive: Received, found: Examined): Promise<void> {
    const { operationId, size, root, checkpoints, key, openings } = found;
    const now = new Date(this.clock.now());
    await manager.query(`INSERT INTO operation VALUES ($1, '', 'UTC', $2)`, [operationId, now]);
    await manager.query(`INSERT INTO membership VALUES ($1, $2, 'manager', $3)`, [operationId, person.accountId, now]);
    await createHead(manager, operationId);
    let page: NewEntry[] = [];
    const write = async (): Promise<void> => {
      const head = await readHead(manager, operationId);
      if (head !== null && page.length > 0) await writeEntries(manager, operationId, head, page).written;
      page = [];
    };
    for await (const line of linesOf(archive.read('entries.ndjson'))) {
      page.push(newEntry(line, openings));
      if (page.length === inOneStatement) await write();
    }
    await write();
    const head = await readHead(manager, operationId);
    if (head?.size !== size || !equalBytes(head.root, root)) throw new Error('the log that was written is another one');
    await manager.query('UPDATE log_head SET read_only = true WHERE operation_id = $1', [operationId]);
    await manager.query('INSERT INTO imported VALUES ($1, $2, $3, $4, $5, $6, $7)', [
      ...[operationId, size, head.root, key, archive.sha256, person.accountId, now],
    ]);
    for (const [at, note] of checkpoints) {
      const form = parseNote(note);
      const keyId = form.ok ? form.value.signatures[0]?.keyId : undefined;
      if (keyId !== undefined)
        await keepCheckpoint(manager, operationId, { size: at, keyId, note, why: 'imported' }, now.getTime());
    }
    await views(manager, operationId, size);
  }

  /** The files that the archive has; each again under the digest of its bytes. */
  async #documents(person: Person, archive: Received, operationId: string): Promise<Imported['documents']> {
    const named = archive.names.filter((name) => name.startsWith('documents/'));
    const notTaken: string[] = [];
    if (named.length === 0) return { taken: 0, notTaken };
    const types = new Map<string, string>();
    for await (const line of linesOf(archive.read('entries.ndjson'))) {
      if (!Buffer.from(line).includes('"document.attached"')) continue;
      const data = memberOf(JSON.parse(Buffer.from(line).toString('utf8')), 'data');
      const inner = memberOf(data, 'data') ?? data;
      types.set(String(memberOf(inner, 'sha256')), String(memberOf(inner, 'mediaType')));
    }
    const member = { ...person, operationId, role: 'manager' } as const;
    let taken = 0;
    for (const name of named) {
      const sha256 = name.slice('documents/'.length);
      const said = types.get(sha256);
      // What an entry calls it is no more than words; where the content is something else that is taken, it is kept as that.
      let kept: StoredDocument | null = null;
      for (const type of said === undefined ? [] : [said, 'application/octet-stream', 'text/plain']) {
        kept ??= await this.documents.take(member, Stream.from(archive.read(name)), type).catch((error: unknown) => {
          if (error instanceof ProblemAnswer) return null;
          throw error;
        });
      }
      if (kept?.sha256 === sha256) taken += 1;
      else notTaken.push(sha256);
    }
    return { taken, notTaken };
  }
}

/** An entry as it was hashed, with the columns, mentions and openings that belong beside it. */
function newEntry(bytes: Uint8Array, openings: Examined['openings']): NewEntry {
  const value: unknown = JSON.parse(Buffer.from(bytes).toString('utf8'));
  const own = openings.get(String(memberOf(value, 'id'))) ?? [];
  const record = recordFromLog(unsealed({ ...Object(value) }, own));
  const erases = record.type === 'person.erased' ? record.data.personId : null;
  return { bytes, record, openings: own, mentions: isRecordType(record.type) ? mentions(record) : [], erases };
}

async function views(manager: EntityManager, operationId: string, size: number): Promise<void> {
  const season = openSeason(await readRecords(manager, operationId, 0, size));
  await writeBatches(
    manager,
    operationId,
    season,
    season.batches().map(({ id }) => id),
  );
  await writeDescription(manager, operationId, season);
}

const refused = (faults: readonly string[]): ProblemAnswer =>
  new ProblemAnswer(
    'invalid-body',
    'Nothing was imported: the archive is not a whole log that fits together.',
    faults.map((detail) => ({ pointer: '', detail })),
  );
