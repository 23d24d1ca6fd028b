import { Rebuild } from '../archive/index.ts';
import { Refusal, type Command } from './command.ts';
import { operationIdOf, withOperation } from './operation-here.ts';
import { options } from './options.ts';

export const rebuild: Command = {
  verb: 'rebuild',
  usage: '--operation ID',
  purpose:
    'Computes anew from the log what is kept beside it (columns, mentions, tree, facts of batches, edges of the trace), puts mentions, facts and edges in place and says what differed. A difference is a defect of the program or somebody’s hand; then the exit code is 1.',
  async run(args) {
    const { given, rest } = options(args, ['operation']);
    if (rest.length > 0) throw new Refusal(`"${rest.join(' ')}" is not understood.`);
    const operationId = operationIdOf(given.operation);
    const { batches, different, indexes, size } = await withOperation(operationId, ({ context }) =>
      context.get(Rebuild).run(operationId, { mend: true }),
    );
    for (const line of different) console.error(line);
    for (const { what, mendable } of indexes) {
      console.error(mendable ? `${what} (written anew)` : `${what} (left as it is: look into it with verify)`);
    }
    console.log(
      `${batches} batches computed anew from ${size} entries, ${different.length} differed; ${indexes.length} differences beside the entries`,
    );
    return different.length + indexes.length === 0 ? 0 : 1;
  },
};
