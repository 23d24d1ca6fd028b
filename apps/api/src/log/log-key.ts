import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { fromBase64, signerFromSeed, type Signer } from '@furrowmark/log';
import { privateFile } from '../database/index.ts';

/**
 * The installation's signing key: one Ed25519 seed, made on the first start and kept in the data folder for this user
 * alone. Each operation's log is signed under its own key name, `furrowmark/<operationId>`, with that seed. Whoever has
 * the seed can sign another history: back it up apart from the database.
 */
export class LogKey {
  private constructor(private readonly seed: Uint8Array) {}

  static async open(dataDir: string): Promise<LogKey> {
    const text = await privateFile(join(dataDir, 'log-signing-key'), () => `${randomBytes(32).toString('base64')}\n`);
    const seed = fromBase64(text.trim());
    if (seed === null || seed.length !== 32)
      throw new Error(`${join(dataDir, 'log-signing-key')} is not a signing key.`);
    return new LogKey(seed);
  }

  signer(operationId: string): Signer {
    return signerFromSeed(originOf(operationId), this.seed);
  }
}

/** The origin line and key name of an operation's log. */
export const originOf = (operationId: string): string => `furrowmark/${operationId}`;
