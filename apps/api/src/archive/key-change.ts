import { Injectable } from '@nestjs/common';
import { verifierKeyText } from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { prepareOwn, Recording, type OwnRecord } from '../append/index.ts';
import { Clock } from '../clock.ts';
import { ProblemAnswer } from '../http/index.ts';
import { checkpointIn, LogKey, lockHead, Signing, type Head } from '../log/index.ts';
import { importOf } from './imported.ts';

/** Verifier key lines, and the entry that names the new one. */
export interface KeyChanged {
  readonly seq: number;
  readonly previousKey: string | null;
  readonly key: string;
}

/** The newest state of a log that anybody outside knows of. */
export interface Known {
  readonly size: number;
  /** Base64. */
  readonly root: string;
}

/** Gives a log another key. Each way is a record, so that every reader sees where the key changed and why. */
@Injectable()
export class KeyChange {
  constructor(
    private readonly recording: Recording,
    private readonly keys: LogKey,
    private readonly signing: Signing,
    private readonly clock: Clock,
  ) {}

  /** A new key takes over from the old one, which signs the checkpoint over it as its last act. */
  async replace(accountId: string, operationId: string, reason: string): Promise<KeyChanged> {
    const changed = await this.#under(accountId, operationId, async (manager, head, key) => {
      if (head.readOnly) throw new ProblemAnswer('read-only', 'This log is only read here: take it over first.');
      const previousKey = verifierKeyText((await this.signing.signer(manager, operationId)).key);
      return { type: 'key.replaced', data: { previousKey, key, reason } };
    });
    await this.signing.handOver(operationId);
    return changed;
  }

  /** An imported log is carried on here from now on, under a key of its own. */
  takeOver(accountId: string, operationId: string, reason: string | undefined): Promise<KeyChanged> {
    return this.#under(accountId, operationId, async (manager, head, key) => {
      const came = await importOf(manager, operationId);
      if (!head.readOnly || came === null) throw new ProblemAnswer('conflict', 'This log is carried on here already.');
      await manager.query('UPDATE log_head SET read_only = false WHERE operation_id = $1', [operationId]);
      const { size, root, archiveSha256 } = came;
      const previous = came.key === null ? {} : { previousKey: came.key };
      const why = reason === undefined ? {} : { reason };
      return { type: 'import.made', data: { size, root, archiveSha256, key, ...previous, ...why } };
    });
  }

  /**
   * The log goes on from a backup that is shorter than what somebody outside has seen, or whose key was lost: under a new
   * key, which says so. The old key signs nothing more, least of all another entry in the place of a lost one.
   */
  async restored(accountId: string, operationId: string, known: Known, previousKey: string, reason: string) {
    const changed = await this.#under(accountId, operationId, (_, head, key) => {
      const data = { size: head.size, knownSize: known.size, knownRoot: known.root, previousKey, key, reason };
      return Promise.resolve({ type: 'log.restored', data });
    });
    await this.keys.forgetMemory(operationId);
    return changed;
  }

  async #under(
    accountId: string,
    operationId: string,
    record: (manager: EntityManager, head: Head, key: string) => Promise<OwnRecord>,
  ): Promise<KeyChanged> {
    const fresh = await this.keys.fresh(operationId);
    const key = verifierKeyText(fresh.key);
    try {
      return await this.recording.run(operationId, async (manager, enter) => {
        const head = await lockHead(manager, operationId);
        if (head === null) throw new Error(`the operation ${operationId} has no log`);
        const own = await record(manager, head, key);
        const { results } = await enter(accountId, [prepareOwn(own, this.clock.now())]);
        const [result] = results;
        if (result?.status !== 'recorded') throw new Error('the change of key was not recorded');
        const previousKey = 'previousKey' in own.data ? (own.data.previousKey ?? null) : null;
        return { seq: result.seq, previousKey, key };
      });
    } catch (error) {
      await this.keys.forget(operationId, fresh);
      throw error;
    }
  }
}

/** Size and root of a checkpoint. */
export function knownOf(note: string): Known {
  const { size, root } = checkpointIn(note);
  return { size, root: Buffer.from(root).toString('base64') };
}
