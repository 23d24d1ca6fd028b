import { Injectable } from '@nestjs/common';
import {
  base64,
  equalBytes,
  nodesForConsistency,
  parseCheckpointText,
  parseNote,
  proofFrom,
  signCheckpoint,
  verifierKeyText,
  verifyConsistency,
  type Checkpoint,
  type Signer,
} from '@furrowmark/log';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { Clock } from '../clock.ts';
import { OperationScope } from '../database/index.ts';
import { ProblemAnswer } from '../http/index.ts';
import { keepCheckpoint, keptCheckpoints, keyEntries } from './checkpoints.ts';
import { readHead, type Head } from './head.ts';
import { LogKey, originOf } from './log-key.ts';
import { hashesOf } from './nodes.ts';

const importedKey = z.array(z.object({ key: z.string().nullable() }));

/**
 * Signs the states of logs, committed ones only, and never one that does not extend what was signed before. That is
 * remembered beside the key, so a database that was put back or edited does not get a signature under its new state.
 */
@Injectable()
export class Signing {
  constructor(
    private readonly scope: OperationScope,
    private readonly keys: LogKey,
    private readonly clock: Clock,
  ) {}

  /** The signed checkpoint of this head; of a log that is only read here, the one that came with it. */
  async sign(manager: EntityManager, operationId: string, head: Head): Promise<string> {
    if (head.readOnly) return imported(manager, operationId);
    const signer = await this.signer(manager, operationId);
    const state = { origin: originOf(operationId), size: head.size, root: head.root };
    const before = await this.keys.remembered(operationId);
    const known = before === null ? null : checkpointIn(before);
    if (known === null) await sameKeyAsBefore(manager, operationId, signer);
    else await fitsBefore(manager, operationId, state, known);
    const note = signCheckpoint(state, [signer]);
    if (note !== before && (known?.size ?? -1) <= head.size) await this.keys.remember(operationId, note);
    return note;
  }

  /** The log's key as it is now, by its own word. */
  async signer(manager: EntityManager, operationId: string): Promise<Signer> {
    const line = (await keyEntries(manager, operationId)).at(-1)?.key ?? null;
    const signer = this.keys.signer(operationId, line);
    if (signer !== null) return signer;
    const words = `The log is signed with the key ${line}, and that key is not in the data folder. Put its backup back.`;
    throw new ProblemAnswer('log-disagrees', words);
  }

  /** The verifier key line of a log; of one that is only read here, the one that came with it. */
  async verifierKey(manager: EntityManager, operationId: string, head: Head): Promise<string | null> {
    if (!head.readOnly) return verifierKeyText((await this.signer(manager, operationId)).key);
    const [row] = importedKey.parse(
      await manager.query('SELECT key FROM imported WHERE operation_id = $1', [operationId]),
    );
    return row?.key ?? null;
  }

  /**
   * The last act of a key that was replaced: it signs the checkpoint that covers the handing over, together with the new
   * one. Done again where it was interrupted; then the old key of one operation is forgotten.
   */
  async handOver(operationId: string): Promise<void> {
    const outgoing = await this.scope.run(operationId, async (manager) => {
      const [head, entries] = [await readHead(manager, operationId), await keyEntries(manager, operationId)];
      const last = entries.at(-1);
      if (head === null || head.readOnly || last?.type !== 'key.replaced' || last.previousKey === null) return null;
      const done = (await keptCheckpoints(manager, operationId)).some(
        ({ size, why }) => why === 'handing-over' && size > last.seq,
      );
      const old = this.keys.signer(operationId, last.previousKey);
      if (done || old === null) return null;
      const signer = await this.signer(manager, operationId);
      // Checked against what was signed before, like every other.
      await this.sign(manager, operationId, head);
      const state = { origin: originOf(operationId), size: head.size, root: head.root };
      const note = signCheckpoint(state, [old, signer]);
      const checkpoint = { size: head.size, keyId: old.key.keyId, note, why: 'handing-over' };
      await keepCheckpoint(manager, operationId, checkpoint, this.clock.now());
      return old;
    });
    if (outgoing !== null) await this.keys.forget(operationId, outgoing);
  }

  /** The last checkpoint signed here, whatever the database says now. */
  remembered(operationId: string): Promise<string | null> {
    return this.keys.remembered(operationId);
  }
}

/** A signed checkpoint's origin, size and root; its form was right when it was written. */
export function checkpointIn(note: string | Uint8Array): Checkpoint {
  const form = parseNote(note);
  const read = form.ok ? parseCheckpointText(form.value.text) : form;
  if (!read.ok) throw new Error(`not a checkpoint: ${read.why}`);
  return read.value;
}

async function imported(manager: EntityManager, operationId: string): Promise<string> {
  const newest = (await keptCheckpoints(manager, operationId)).findLast(({ why }) => why === 'imported');
  if (newest === undefined) throw new Error(`the log of ${operationId} came without a checkpoint`);
  return newest.note;
}

/** A fresh data folder must not sign a log that another key has signed so far. */
async function sameKeyAsBefore(manager: EntityManager, operationId: string, { key }: Signer): Promise<void> {
  const last = (await keptCheckpoints(manager, operationId)).findLast(({ why }) => why === 'schedule');
  const names = (await keyEntries(manager, operationId)).length > 0;
  if (last === undefined || last.keyId === key.keyId || names) return;
  throw new ProblemAnswer(
    'log-disagrees',
    `The log was signed with the key ${last.keyId} so far; the one in the data folder is ${key.keyId}. Put the key's backup back, or use "restore" so that the new key is recorded.`,
  );
}

/** Both states belong to one log: the smaller one is the beginning of the larger one. */
async function fitsBefore(
  manager: EntityManager,
  operationId: string,
  now: Checkpoint,
  before: Checkpoint,
): Promise<void> {
  // Somebody else may have signed a later state since this one was read.
  const committed = before.size > now.size ? ((await readHead(manager, operationId))?.size ?? 0) : now.size;
  if (before.size > committed) {
    throw new ProblemAnswer(
      'log-disagrees',
      `A checkpoint of ${before.size} entries was signed, but the log has ${committed}: an older database was put in its place. Use "restore", which records it.`,
    );
  }
  const [older, newer] = before.size > now.size ? [now, before] : [before, now];
  const agrees =
    older.size === newer.size
      ? equalBytes(older.root, newer.root)
      : older.size === 0 ||
        verifyConsistency(
          older.size,
          older.root,
          newer.size,
          newer.root,
          await proof(manager, operationId, older.size, newer.size),
        );
  if (agrees) return;
  throw new ProblemAnswer(
    'log-disagrees',
    `The log is not the one whose first ${before.size} entries were signed (root ${base64(before.root)}). Nothing more is signed. Look into it with "verify --operation ${operationId}".`,
  );
}

async function proof(manager: EntityManager, operationId: string, from: number, to: number): Promise<Uint8Array[]> {
  const plan = nodesForConsistency(from, to);
  return proofFrom(plan, await hashesOf(manager, operationId, plan.nodes));
}
