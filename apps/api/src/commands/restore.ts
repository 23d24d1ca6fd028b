import { readFile } from 'node:fs/promises';
import { parseCheckpointText, parseNote, verifierKeyText } from '@furrowmark/log';
import {
  CannotRestore,
  checkedBackup,
  DoesNotOpen,
  KeyChange,
  restoreKeys,
  restoreRows,
  type BackupManifest,
  type Seen,
} from '../archive/index.ts';
import { liveHolder, openDatabase, OperationScope, ownerDataSource } from '../database/index.ts';
import { keyEntries, LogKey, readHead } from '../log/index.ts';
import { openService, type Service } from '../service.ts';
import { Refusal, type Command } from './command.ts';
import { settings } from './home.ts';
import { contentOf, passphraseIn } from './passphrase.ts';
import { parseArgs } from 'node:util';

export const restore: Command = {
  verb: 'restore',
  usage: 'FILE (--against CHECKPOINT)…|--no-checkpoint-known [--keys FILE] [--passphrase-file FILE]',
  purpose:
    'Puts a backup into an empty database. Asks for the newest checkpoint that anybody holds (the certifier’s mail, a printed report): where it is larger than the backup, the log goes on under a new key with a record that says so.',
  async run(args) {
    const asked = read(args);
    const { dataDir, databaseUrl } = settings();
    const holder = await liveHolder(dataDir);
    if (holder !== null) throw new Refusal(`process ${holder} serves this data folder. Stop it first.`);
    const passphrase = await passphraseIn(asked.passphraseFile);
    try {
      if (asked.keys !== undefined) await restoreKeys(dataDir, await contentOf(asked.keys, passphrase));
      const seen = [...(await Promise.all(asked.against.map(seenIn)))];
      const first = await checkedBackup(await contentOf(asked.file, passphrase), seen);
      const { manifest } = first;
      if (manifest === null || first.faults.length > 0) throw new Refusal(first.faults.join('\n'));
      const keys = await LogKey.open(dataDir);
      for (const { operationId } of manifest.operations) {
        const note = await keys.remembered(operationId);
        if (note !== null) seen.push(seenOf(note, `log-signed/${operationId}`));
      }
      // What the keys themselves remember is held against the backup as well.
      const { faults } = await checkedBackup(await contentOf(asked.file, passphrase), seen);
      if (faults.length > 0) throw new Refusal(faults.join('\n'));
      const database = await openDatabase({ dataDir, databaseUrl, serving: false });
      try {
        const owner = await ownerDataSource(databaseUrl ?? database.embedded?.ownerUrl ?? '').initialize();
        try {
          await restoreRows(owner, dataDir, manifest, await contentOf(asked.file, passphrase));
        } finally {
          await owner.destroy();
        }
      } finally {
        await database.close();
      }
      const service = await openService(settings());
      try {
        for (const operation of manifest.operations) console.log(await goOn(service, operation, seen, keys));
      } finally {
        await service.close();
      }
      return 0;
    } catch (error) {
      if (error instanceof CannotRestore || error instanceof DoesNotOpen) throw new Refusal(error.message);
      throw error;
    }
  },
};

interface Asked {
  readonly file: string;
  readonly against: readonly string[];
  readonly keys: string | undefined;
  readonly passphraseFile: string | undefined;
}

function read(args: readonly string[]): Asked {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        against: { type: 'string', multiple: true },
        'no-checkpoint-known': { type: 'boolean' },
        keys: { type: 'string' },
        'passphrase-file': { type: 'string' },
      },
    });
  } catch (error) {
    throw new Refusal(error instanceof Error ? error.message : String(error));
  }
  const [file, ...more] = parsed.positionals;
  const { against = [], 'no-checkpoint-known': none = false, keys, 'passphrase-file': passphraseFile } = parsed.values;
  if (file === undefined || more.length > 0) throw new Refusal('one backup file is needed.');
  if (against.length === 0 && !none) {
    throw new Refusal(
      'which is the newest checkpoint that anybody holds? Ask the certifier, look at the last printed report and name the file with --against. Where truly nobody has one, say --no-checkpoint-known.',
    );
  }
  return { file, against, keys, passphraseFile };
}

async function seenIn(path: string): Promise<Seen> {
  return seenOf(await readFile(path, 'utf8'), path);
}

function seenOf(note: string, label: string): Seen {
  const form = parseNote(note);
  const checkpoint = form.ok ? parseCheckpointText(form.value.text) : form;
  const operationId = checkpoint.ok ? /^furrowmark\/([0-9a-f-]{36})$/.exec(checkpoint.value.origin)?.[1] : undefined;
  if (!checkpoint.ok || operationId === undefined) throw new Refusal(`${label} is not a signed checkpoint of a log.`);
  const { size, root } = checkpoint.value;
  return { operationId, size, root: Buffer.from(root).toString('base64') };
}

/** Goes on under the same key where nothing was lost; else under a new one, with a record that says what was. */
async function goOn(
  { context, createAccount }: Service,
  { operationId, size, root, firstKey }: BackupManifest['operations'][number],
  seen: readonly Seen[],
  keys: LogKey,
): Promise<string> {
  const { line, readOnly } = await context.get(OperationScope).run(operationId, async (manager) => ({
    line: (await keyEntries(manager, operationId)).at(-1)?.key ?? null,
    readOnly: (await readHead(manager, operationId))?.readOnly ?? false,
  }));
  if (readOnly) return `${operationId}: ${size} entries, an imported log that is only read`;
  const signer = keys.signer(operationId, line);
  const previous = line ?? firstKey;
  const keyLost = signer === null || verifierKeyText(signer.key) !== previous;
  const newest = seen
    .filter((each) => each.operationId === operationId)
    .reduce((a, b) => (b.size > a.size ? b : a), { operationId, size, root });
  if (newest.size === size && !keyLost) return `${operationId}: ${size} entries, nothing known to be lost`;
  const reason =
    newest.size > size
      ? `restored from a backup of ${size} entries; a checkpoint of ${newest.size} is known`
      : 'restored from a backup; the signing key was lost';
  const { accountId } = await createAccount({ name: 'Restore of a backup' });
  const { key } = await context.get(KeyChange).restored(accountId, operationId, newest, previous, reason);
  return `${operationId}: ${reason}. The log goes on under a new key, which must reach its readers:\n  ${key}`;
}
