import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import type { DataSource } from 'typeorm';
import { Chance } from '../faults/chance.ts';
import type { LiveLog } from './live-log.ts';

/** What was done to a log, and what must be said of it. */
export interface Tampered {
  readonly what: string;
  /** `missing`: a document is gone, which is told apart from altered. */
  readonly must: 'altered' | 'missing';
}

type Tamper = (at: { owner: DataSource; log: LiveLog; chance: Chance; size: number }) => Promise<Tampered>;

const altered = (what: string): Tampered => ({ what, must: 'altered' });
/** The bytes with one or all bits of one of them turned; never as they were. */
function flipped(bytes: Uint8Array, chance: Chance): Buffer {
  const copy = Buffer.from(bytes);
  const at = chance.below(copy.length);
  copy[at] = (copy[at] ?? 0) ^ (chance.below(2) === 0 ? 1 << chance.below(8) : 1 + chance.below(255));
  return copy;
}

/** One cell of a table of the log: of one of its rows, chosen by chance. */
async function cell(
  { owner, log, chance }: Parameters<Tamper>[0],
  table: string,
  key: readonly string[],
  column: string,
  turned: (value: Buffer) => Buffer,
): Promise<Tampered> {
  const columns = [...key, column].join(', ');
  const rows: Record<string, unknown>[] = await owner.query(
    `SELECT ${columns} FROM ${table} WHERE operation_id = $1 ORDER BY ${columns}`,
    [log.operationId],
  );
  const row = rows[chance.below(rows.length)] ?? {};
  const value = row[column];
  if (!Buffer.isBuffer(value)) throw new Error(`${table}.${column} holds no bytes`);
  const where = key.map((name, i) => `AND ${name} = $${i + 3}`).join(' ');
  await owner.query(`UPDATE ${table} SET ${column} = $2 WHERE operation_id = $1 ${where}`, [
    ...[log.operationId, turned(value)],
    ...key.map((name) => row[name]),
  ]);
  return altered(`${table}.${column} of ${key.map((name) => String(row[name])).join('/')}`);
}

/** A statement about the entry `$2`, and another one `$3`. */
const about =
  (what: string, ...statements: readonly string[]): Tamper =>
  async ({ owner, log, chance, size }) => {
    const seq = chance.below(size);
    const other = (seq + 1 + chance.below(size - 1)) % size;
    for (const statement of statements) {
      const values = [log.operationId, seq, other].slice(0, statement.includes('$3') ? 3 : 2);
      await owner.query(statement, values);
    }
    return altered(`${what} (${seq}, ${other})`);
  };

const tampers: readonly Tamper[] = [
  ...Array<Tamper>(3).fill((at) => cell(at, 'log_entry', ['seq'], 'bytes', (value) => flipped(value, at.chance))),
  (at) => cell(at, 'log_entry', ['seq'], 'bytes', (value) => value.subarray(0, 1 + at.chance.below(value.length - 1))),
  (at) => cell(at, 'log_entry', ['seq'], 'leaf_hash', (value) => flipped(value, at.chance)),
  (at) => cell(at, 'tree_node', ['level', 'index'], 'hash', (value) => flipped(value, at.chance)),
  (at) => cell(at, 'log_head', [], 'root', (value) => flipped(value, at.chance)),
  (at) => cell(at, 'log_head', [], 'frontier', (value) => flipped(value, at.chance)),
  (at) => cell(at, 'opening', ['record_id', 'pointer'], 'salt', (value) => flipped(value, at.chance)),
  about('an entry taken out', 'DELETE FROM log_entry WHERE operation_id = $1 AND seq = $2'),
  about('the end cut off', 'DELETE FROM log_entry WHERE operation_id = $1 AND seq >= $2'),
  about(
    'an entry put behind the end',
    `INSERT INTO log_entry SELECT operation_id, (SELECT size FROM log_head h WHERE h.operation_id = $1), gen_random_uuid(),
       type, occurred_at, recorded_at, leaf_hash, bytes FROM log_entry WHERE operation_id = $1 AND seq = $2`,
  ),
  about(
    'two entries exchanged',
    'UPDATE log_entry SET seq = 1000 WHERE operation_id = $1 AND seq = $2',
    'UPDATE log_entry SET seq = $2 WHERE operation_id = $1 AND seq = $3',
    'UPDATE log_entry SET seq = $3 WHERE operation_id = $1 AND seq = 1000 AND seq <> $2',
  ),
  about(
    'one entry’s bytes in the place of another’s',
    `UPDATE log_entry SET bytes = (SELECT bytes FROM log_entry WHERE operation_id = $1 AND seq = $3)
      WHERE operation_id = $1 AND seq = $2`,
  ),
  about(
    'the time beside an entry',
    `UPDATE log_entry SET occurred_at = occurred_at - interval '1 hour' WHERE operation_id = $1 AND seq = $2`,
  ),
  about(
    'the time of recording beside an entry',
    `UPDATE log_entry SET recorded_at = recorded_at + interval '1 hour' WHERE operation_id = $1 AND seq = $2`,
  ),
  about(
    'the id beside an entry',
    'UPDATE log_entry SET record_id = gen_random_uuid() WHERE operation_id = $1 AND seq = $2',
  ),
  about('the type beside an entry', `UPDATE log_entry SET type = 'lot.recalled' WHERE operation_id = $1 AND seq = $2`),
  about(
    'something named that an entry does not name',
    'INSERT INTO mention (operation_id, subject_id, seq) VALUES ($1, gen_random_uuid(), $2)',
  ),
  about('the size in the head', 'UPDATE log_head SET size = $2 WHERE operation_id = $1'),
  async ({ log, chance }) => {
    const path = log.documents[chance.below(2)] ?? '';
    writeFileSync(path, flipped(readFileSync(path), chance));
    return altered('a document');
  },
  ({ log, chance }) => {
    rmSync(log.documents[chance.below(2)] ?? '');
    return Promise.resolve({ what: 'a document removed', must: 'missing' });
  },
  ({ log: { documents } }) => {
    renameSync(documents[0], `${documents[0]}.aside`);
    renameSync(documents[1], documents[0]);
    renameSync(`${documents[0]}.aside`, documents[1]);
    return Promise.resolve(altered('two documents exchanged'));
  },
];

/** Tampers with the log in one way; the same seed tampers in the same way. */
export function tamper(owner: DataSource, log: LiveLog, size: number, seed: number): Promise<Tampered> {
  const chance = new Chance(seed);
  const chosen = tampers[chance.below(tampers.length)];
  if (chosen === undefined) throw new Error('no way of tampering');
  return chosen({ owner, log, chance, size });
}

const tables = ['log_entry', 'tree_node', 'log_head', 'mention', 'opening', 'batch_facts', 'trace_edge', 'document'];

/** Remembers a log as it lies there, and puts it back. */
export class Untouched {
  private constructor(
    private readonly owner: DataSource,
    private readonly log: LiveLog,
    private readonly files: readonly (readonly [path: string, content: Buffer])[],
  ) {}

  static async of(owner: DataSource, log: LiveLog, memory: string): Promise<Untouched> {
    for (const table of tables) {
      await owner.query(`DROP TABLE IF EXISTS untouched_${table}`);
      await owner.query(`CREATE TABLE untouched_${table} AS SELECT * FROM ${table} WHERE operation_id = $1`, [
        log.operationId,
      ]);
    }
    return new Untouched(
      owner,
      log,
      [...log.documents, memory].map((path) => [path, readFileSync(path)] as const),
    );
  }

  async back(): Promise<void> {
    for (const table of tables) {
      await this.owner.query(`DELETE FROM ${table} WHERE operation_id = $1`, [this.log.operationId]);
      await this.owner.query(`INSERT INTO ${table} SELECT * FROM untouched_${table}`);
    }
    for (const [path, content] of this.files) writeFileSync(path, content);
  }
}
