import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fromBase64, signerFromSeed, verifierKeyText, type Signer } from '@furrowmark/log';
import { privateFile } from '../database/index.ts';
import { codeOf } from '../error-code.ts';

/**
 * The signing keys, outside the database: files that only this user may read. Every log begins under the installation's
 * seed, made on the first start (`log-signing-key`), with a key name of its own, `furrowmark/<operationId>`. A key that
 * came later is `log-keys/<operationId>/<key id>`; which one is in use the log itself says. Whoever has a seed can sign
 * another history: back the keys up apart from the database.
 */
export class LogKey {
  readonly #known = new Map<string, Signer>();

  private constructor(
    private readonly seed: Uint8Array,
    private readonly dataDir: string,
  ) {}

  static async open(dataDir: string): Promise<LogKey> {
    const path = join(dataDir, 'log-signing-key');
    const text = await privateFile(path, () => `${randomBytes(32).toString('base64')}\n`);
    return new LogKey(seedOf(text, path), dataDir);
  }

  /** The signer whose verifier key line this is (null: the one the log began with); null where its seed is not here. */
  signer(operationId: string, line: string | null): Signer | null {
    const first = this.#cached(operationId, this.seed);
    if (line === null || verifierKeyText(first.key) === line) return first;
    const known = this.#known.get(line);
    if (known !== undefined) return known;
    const path = this.#place(operationId, line.split('+')[1] ?? '');
    if (!existsSync(path)) return null;
    const signer = this.#cached(operationId, seedOf(readFileSync(path, 'utf8'), path));
    return verifierKeyText(signer.key) === line ? signer : null;
  }

  /** A new key for an operation's log, its seed safely written. It signs nothing until the log names it. */
  async fresh(operationId: string): Promise<Signer> {
    const seed = randomBytes(32);
    const signer = signerFromSeed(originOf(operationId), seed);
    await privateFile(this.#place(operationId, signer.key.keyId), () => `${seed.toString('base64')}\n`);
    return signer;
  }

  /** Forgets a key of one operation that has handed over. The installation's own stays: other logs are signed with it. */
  async forget(operationId: string, { key }: Signer): Promise<void> {
    this.#known.delete(verifierKeyText(key));
    await rm(this.#place(operationId, key.keyId), { force: true });
  }

  /**
   * The last checkpoint that was signed here, kept beside the keys: a key remembers what it signed, whatever becomes of
   * the database. null where it has signed none.
   */
  async remembered(operationId: string): Promise<string | null> {
    try {
      return await readFile(this.#memory(operationId), 'utf8');
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return null;
      throw error;
    }
  }

  /** Replaces what the key remembers, all or nothing. */
  async remember(operationId: string, note: string): Promise<void> {
    const path = this.#memory(operationId);
    await mkdir(dirname(path), { recursive: true, mode: 0o700 });
    const fresh = `${path}.${process.pid}.${randomBytes(4).toString('hex')}`;
    const file = await open(fresh, 'wx', 0o600);
    try {
      await file.writeFile(note);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(fresh, path);
  }

  /** Forgets what was signed: only where the log itself now says that an older state was put in its place. */
  async forgetMemory(operationId: string): Promise<void> {
    await rm(this.#memory(operationId), { force: true });
  }

  #cached(operationId: string, seed: Uint8Array): Signer {
    const name = `${operationId} ${Buffer.from(seed).toString('base64')}`;
    const known = this.#known.get(name) ?? signerFromSeed(originOf(operationId), seed);
    this.#known.set(name, known).set(verifierKeyText(known.key), known);
    return known;
  }

  #place(operationId: string, keyId: string): string {
    return join(this.dataDir, 'log-keys', operationId, keyId);
  }

  #memory(operationId: string): string {
    return join(this.dataDir, 'log-signed', operationId);
  }
}

function seedOf(text: string, path: string): Uint8Array {
  const seed = fromBase64(text.trim());
  if (seed === null || seed.length !== 32) throw new Error(`${path} is not a signing key.`);
  return seed;
}

/** The origin line and key name of an operation's log. */
export const originOf = (operationId: string): string => `furrowmark/${operationId}`;
