import { packTar } from '@furrowmark/log';
import { backupFiles, checkedBackup, keyFiles } from '../archive/index.ts';
import { openDatabase, ownerDataSource } from '../database/index.ts';
import { LogKey } from '../log/index.ts';
import { Refusal, type Command } from './command.ts';
import { settings } from './home.ts';
import { options } from './options.ts';
import { contentOf, passphraseIn, under } from './passphrase.ts';
import { writeWhole } from './whole-file.ts';

export const backup: Command = {
  verb: 'backup',
  usage: '--out FILE [--keys] [--passphrase-file FILE]',
  purpose:
    'Writes everything in the database and the attached documents into one file, reads it back and checks it by counts and roots; with --keys the signing keys instead, which are to be kept apart from it. With a passphrase the file is encrypted.',
  async run(args) {
    const { given, flags, rest } = options(args, ['out', 'passphrase-file'], ['keys']);
    const { out } = given;
    if (rest.length > 0 || out === undefined) throw new Refusal('--out FILE is needed, and nothing besides.');
    const passphrase = await passphraseIn(given['passphrase-file']);
    const { dataDir, databaseUrl } = settings();
    if (flags.has('keys')) {
      await LogKey.open(dataDir);
      await writeWhole(out, under(packTar(keyFiles(dataDir)), passphrase));
      console.log(out);
      console.error('Whoever has these keys and the database can rewrite a log and sign it. Keep them apart.');
      return 0;
    }
    const database = await openDatabase({ dataDir, databaseUrl, serving: false });
    try {
      const owner = await ownerDataSource(databaseUrl ?? database.embedded?.ownerUrl ?? '').initialize();
      try {
        const { tables, operations } = await backupFiles(owner, dataDir, Date.now(), (files) =>
          writeWhole(out, under(packTar(files), passphrase)),
        );
        // What was not read back is no backup.
        const { faults } = await checkedBackup(await contentOf(out, passphrase));
        if (faults.length > 0) throw new Error(`the backup is not what was to be written: ${faults.join(' ')}`);
        const rows = tables.reduce((sum, table) => sum + table.rows, 0);
        console.log(`${out}: ${operations.length} operations, ${rows} rows, read back and checked`);
        for (const { operationId, size, root } of operations) console.log(`${operationId}  ${size}  ${root}`);
      } finally {
        await owner.destroy();
      }
    } finally {
      await database.close();
    }
    console.error('The signing keys are not in it: back them up apart from it with --keys.');
    return 0;
  },
};
