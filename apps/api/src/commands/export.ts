import { packTar } from '@furrowmark/log';
import { Archives } from '../archive/index.ts';
import { Refusal, type Command } from './command.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { options } from './options.ts';
import { writeWhole } from './whole-file.ts';

export const exportArchive: Command = {
  verb: 'export',
  usage: '--operation ID --out FILE.tar [--without-names]',
  purpose:
    'Writes the whole log of an operation, its newest checkpoint, the names behind the seals and the attached documents into one archive that furrowmark-verify can check offline.',
  async run(args) {
    const { given, flags, rest } = options(args, ['operation', 'out'], ['without-names']);
    if (rest.length > 0) throw new Refusal(`"${rest.join(' ')}" is not understood.`);
    const operationId = operationIdOf(given.operation);
    const { out } = given;
    if (out === undefined) throw new Refusal('--out FILE.tar is needed.');
    const openings = !flags.has('without-names');
    const { entries, withoutFile } = await withOperation(operationId, async ({ context }) => {
      const archived = await context.get(Archives).of(operationId, { openings });
      await writeWhole(out, packTar(archived.files));
      return archived;
    });
    console.log(`${out}: ${entries} entries`);
    for (const sha256 of withoutFile)
      console.error(`The file of document ${sha256} is missing or altered; it was left out.`);
    if (openings) console.error('The archive holds names and addresses. Hand it only to those who may read them.');
    return 0;
  },
};
