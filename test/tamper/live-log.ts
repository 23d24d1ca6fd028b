import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { startService, type RunningService } from '@furrowmark/api';
import { canonicalBytes, emptyFrontier, extend, leafHash, packTar, rootOf } from '@furrowmark/log';
import { run } from '@furrowmark/verify';
import { DataSource } from 'typeorm';
import { Archives, Rebuild } from '../../apps/api/src/archive/index.ts';
import { readyCluster } from '../support/cluster.ts';
import { temporaryFolder } from '../support/folder.ts';
import { note } from '../support/service.ts';

/** What a check of a log said. */
export interface Verdict {
  readonly code: number;
  readonly said: string;
}

/** A log in a database, the checkpoint that somebody outside keeps of it, and where its two documents lie. */
export interface LiveLog {
  readonly operationId: string;
  /** The file with the checkpoint over all of it. */
  readonly kept: string;
  readonly documents: readonly [string, string];
}

export type Entry = Record<string, unknown> & { seq: number; data: Record<string, unknown> };

/** A log has so many entries: its description, a person, eight notes, two documents. */
export const size = 12;
const papers = ['day,mg/L\n2026-06-03,7.4\n', 'lot,weight\nK-4,5 lb\n'] as const;

/**
 * A service, and its database as its superuser has it: with the triggers switched off (PostgreSQL manual:
 * session_replication_role, ALTER TABLE … DISABLE TRIGGER).
 */
export class Farmhouse {
  private constructor(
    readonly home: string,
    readonly service: RunningService,
    private readonly token: string,
    readonly owner: DataSource,
  ) {}

  static async open(name: string): Promise<Farmhouse> {
    const home = temporaryFolder(name);
    await readyCluster(join(home, 'data'));
    const service = await startService({ dataDir: join(home, 'data'), log: 'silent' });
    const { accountId } = await service.createAccount({ name: 'Ines' });
    const { token } = await service.issueToken({ accountId, label: 'test' });
    const owner = await new DataSource({
      type: 'postgres',
      url: service.database.embedded?.ownerUrl ?? '',
      // As an option of the connection, for the pool drops one that was idle for long and opens another.
      extra: { max: 1, options: '-c session_replication_role=replica' },
    }).initialize();
    return new Farmhouse(home, service, token, owner);
  }

  async close(): Promise<void> {
    await this.#triggers('ENABLE ALWAYS');
    await this.owner.destroy();
    await this.service.close();
  }

  /** Those set to ENABLE ALWAYS stay in the way of a replica too; a superuser switches them off by name. */
  disarm(): Promise<void> {
    return this.#triggers('DISABLE');
  }

  /** Tests that run in one process share a database: what one leaves open the next would find open. */
  async #triggers(state: 'DISABLE' | 'ENABLE ALWAYS'): Promise<void> {
    for (const table of ['log_entry', 'tree_node', 'log_head', 'document', 'signature'])
      await this.owner.query(`ALTER TABLE ${table} ${state} TRIGGER append_only`);
  }

  api(path: string, body?: unknown): Promise<Response> {
    return fetch(`${this.service.url}/api/v1/operations${path}`, {
      headers: { authorization: `Bearer ${this.token}`, 'content-type': 'application/json' },
      ...(body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) }),
    });
  }

  async log(): Promise<LiveLog> {
    const made: { operationId: string } = JSON.parse(
      await (await this.api('', { name: 'Quillfen Growers', timeZone: 'America/New_York' })).text(),
    );
    const { operationId } = made;
    const person = { personId: note('').id, personal: { name: 'Ines Harrow', initials: 'IH' } };
    const records: unknown[] = [note('', { type: 'person.registered', data: person })];
    for (let i = records.length; i < size - papers.length - 1; i += 1) records.push(note(`looked at it, à ${i}`));
    const documents: string[] = [];
    for (const paper of papers) {
      const sha256 = createHash('sha256').update(paper).digest('hex');
      documents.push(join(this.home, 'data', 'documents', operationId, sha256.slice(0, 2), sha256));
      await this.attach(operationId, paper);
      const data = { title: 'paper', mediaType: 'text/csv', byteLength: Buffer.byteLength(paper), sha256, about: [] };
      records.push(note('', { type: 'document.attached', data: { ...data, documentId: note('').id } }));
    }
    await this.append(operationId, records);
    const kept = join(this.home, `${operationId}.checkpoint`);
    writeFileSync(kept, await (await this.api(`/${operationId}/log/checkpoint`)).text());
    return { operationId, kept, documents: [documents[0] ?? '', documents[1] ?? ''] };
  }

  async append(operationId: string, records: readonly unknown[]): Promise<void> {
    const answer = await this.api(`/${operationId}/records`, { records });
    const { results }: { results: { status: string }[] } = JSON.parse(await answer.text());
    const other = results.find(({ status }) => status !== 'recorded');
    if (other !== undefined) throw new Error(`not recorded: ${JSON.stringify(other)}`);
    // What follows from them is written before a list is read: there is something to tamper with.
    await this.api(`/${operationId}/batches?limit=1`);
  }

  async attach(operationId: string, paper: string): Promise<void> {
    const answer = await fetch(`${this.service.url}/api/v1/operations/${operationId}/documents`, {
      method: 'POST',
      headers: { authorization: `Bearer ${this.token}`, 'content-type': 'text/csv' },
      body: paper,
    });
    if (answer.status > 201) throw new Error(`the document was answered ${answer.status}`);
  }

  /** What `furrowmark verify --operation` does: the log as it lies there to the verifier, then what is kept beside it. */
  async database(operationId: string, ...args: string[]): Promise<Verdict> {
    const { context } = this.service;
    const path = join(mkdtempSync(join(this.home, 'live-')), 'log.tar');
    const { files } = await context.get(Archives).of(operationId, { openings: true, evenIfAltered: true });
    const chunks: Uint8Array[] = [];
    for await (const chunk of packTar(files)) chunks.push(chunk);
    writeFileSync(path, Buffer.concat(chunks));
    const { code, output } = await run([path, ...args], Date.now());
    rmSync(join(path, '..'), { recursive: true });
    const { indexes, different } = await context.get(Rebuild).run(operationId, { mend: false });
    const beside = [...indexes.map(({ what }) => what), ...different];
    return { code: beside.length === 0 ? code : 1, said: [output, ...beside].join('\n') };
  }

  /** The export over HTTP, checked by the verifier; `null` where the service does not sign what it has any more. */
  async exported(operationId: string, ...args: string[]): Promise<Verdict | null> {
    const answer = await this.api(`/${operationId}/export`);
    if (answer.status !== 200) return null;
    const path = join(this.home, `${operationId}.tar`);
    writeFileSync(path, Buffer.from(await answer.arrayBuffer()));
    const { code, output } = await run([path, ...args], Date.now());
    return { code, said: output };
  }

  async bytesOf(operationId: string, seq: number): Promise<Buffer> {
    const [row]: { bytes: Buffer }[] = await this.owner.query(
      'SELECT bytes FROM log_entry WHERE operation_id = $1 AND seq = $2',
      [operationId, seq],
    );
    return row?.bytes ?? Buffer.alloc(0);
  }

  write(operationId: string, seq: number, bytes: Uint8Array): Promise<unknown> {
    return this.owner.query('UPDATE log_entry SET bytes = $3 WHERE operation_id = $1 AND seq = $2', [
      ...[operationId, seq, Buffer.from(bytes)],
    ]);
  }

  async entries(operationId: string): Promise<Entry[]> {
    const rows: { bytes: Buffer }[] = await this.owner.query(
      'SELECT bytes FROM log_entry WHERE operation_id = $1 ORDER BY seq',
      [operationId],
    );
    return rows.map(({ bytes }): Entry => JSON.parse(bytes.toString('utf8')));
  }

  /** What an owner would do who covers the traces: the log written anew from these lines, and all that lies beside it. */
  async rewrite(operationId: string, lines: readonly Uint8Array[]): Promise<void> {
    await this.owner.query('DELETE FROM log_entry WHERE operation_id = $1', [operationId]);
    for (const [seq, bytes] of lines.entries()) {
      const { id, type, occurredAt, recordedAt } = JSON.parse(Buffer.from(bytes).toString('utf8'));
      await this.owner.query('INSERT INTO log_entry VALUES ($1, $2, $3, $4, $5, $6, $7, $8)', [
        ...[operationId, seq, id, type, occurredAt, recordedAt],
        ...[Buffer.from(leafHash(bytes)), Buffer.from(bytes)],
      ]);
    }
    await this.owner.query(
      `DELETE FROM opening o WHERE operation_id = $1 AND NOT EXISTS (
         SELECT FROM log_entry e WHERE e.operation_id = o.operation_id AND e.record_id = o.record_id)`,
      [operationId],
    );
    await this.recompute(operationId);
    await this.service.context.get(Rebuild).run(operationId, { mend: true });
  }

  /** Leaf hashes, tree and head from the entries; and the key made to forget what it signed. */
  async recompute(operationId: string): Promise<void> {
    const rows: { seq: string; bytes: Buffer }[] = await this.owner.query(
      'SELECT seq, bytes FROM log_entry WHERE operation_id = $1 ORDER BY seq',
      [operationId],
    );
    const leaves = rows.map(({ bytes }) => Buffer.from(leafHash(bytes)));
    for (const [place, leaf] of leaves.entries())
      await this.owner.query('UPDATE log_entry SET leaf_hash = $3 WHERE operation_id = $1 AND seq = $2', [
        ...[operationId, rows[place]?.seq, leaf],
      ]);
    const { frontier, nodes } = extend(emptyFrontier, leaves);
    await this.owner.query('DELETE FROM tree_node WHERE operation_id = $1', [operationId]);
    for (const { level, index, hash } of nodes.filter((node) => node.level > 0))
      await this.owner.query('INSERT INTO tree_node VALUES ($1, $2, $3, $4)', [
        ...[operationId, level, index, Buffer.from(hash)],
      ]);
    await this.owner.query(
      `UPDATE log_head SET size = $2, frontier = $3, root = $4,
              recorded_at = (SELECT recorded_at FROM log_entry WHERE operation_id = $1 ORDER BY seq DESC LIMIT 1)
        WHERE operation_id = $1`,
      [operationId, frontier.size, Buffer.concat(frontier.edge), Buffer.from(rootOf(frontier))],
    );
    rmSync(this.memory(operationId), { force: true });
  }

  /** The database as it was when the log had so many entries; the key keeps what it remembers. */
  async putBack(operationId: string, entries: number): Promise<void> {
    const remembered = readFileSync(this.memory(operationId));
    await this.owner.query('DELETE FROM log_entry WHERE operation_id = $1 AND seq >= $2', [operationId, entries]);
    await this.recompute(operationId);
    await this.service.context.get(Rebuild).run(operationId, { mend: true });
    writeFileSync(this.memory(operationId), remembered);
  }

  /** Where the key remembers what it signed last. */
  memory(operationId: string): string {
    return join(this.home, 'data', 'log-signed', operationId);
  }
}

/** An entry's bytes with something in it changed. */
export function edited(bytes: Uint8Array, change: (entry: Entry) => void): Uint8Array {
  const entry: Entry = JSON.parse(Buffer.from(bytes).toString('utf8'));
  change(entry);
  return canonicalBytes(entry);
}

/** Entries numbered anew by their places, their times of recording in order, as an owner would who covers the traces. */
export function renumbered(entries: readonly Entry[]): Uint8Array[] {
  const times = entries.map((entry) => String(entry['recordedAt'])).toSorted();
  return entries.map((entry, seq) => canonicalBytes({ ...entry, seq, recordedAt: times[seq] }));
}
