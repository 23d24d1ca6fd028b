import { KeyChange } from '../archive/index.ts';
import { LogReader } from '../log/index.ts';
import { Refusal, type Command } from './command.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { options } from './options.ts';

export const key: Command = {
  verb: 'key',
  usage: 'show|replace --operation ID [--reason WORDS]',
  purpose:
    'Shows the verifier key of a log, to print and hand out; or replaces the signing key, which is recorded: the old key signs the checkpoint that covers the change.',
  async run(args) {
    const { given, rest } = options(args, ['operation', 'reason']);
    const [what, ...more] = rest;
    if ((what !== 'show' && what !== 'replace') || more.length > 0)
      throw new Refusal('either "key show" or "key replace".');
    const operationId = operationIdOf(given.operation);
    const { reason } = given;
    await withOperation(operationId, async ({ context, createAccount }) => {
      if (what === 'show') return console.log((await context.get(LogReader).verifierKey(operationId)) ?? 'not known');
      if (reason === undefined || reason.trim() === '') throw new Refusal('--reason is needed: it is recorded.');
      const { accountId } = await createAccount({ name: 'Replacement of the signing key' });
      const changed = await context.get(KeyChange).replace(accountId, operationId, reason);
      console.log(`entry ${changed.seq}\nnew key ${changed.key}`);
      console.error('Hand out the new key, and back it up: it is under log-keys/ in the data folder.');
    });
    return 0;
  },
};
