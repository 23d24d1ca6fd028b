import { catalogue } from './catalogue.ts';
import { help } from './help.ts';
import { explained } from './options.ts';

const [verb = 'help', ...args] = process.argv.slice(2);
const command = catalogue.find((one) => one.verb === verb) ?? (/^(help|-h|--help)$/.test(verb) ? help : undefined);

if (command === undefined) {
  console.error(`There is no verb "${verb}". These there are:\n`);
  await help.run([]);
  process.exitCode = 64;
} else if (args.includes('--help')) {
  await help.run([verb]);
} else {
  try {
    process.exitCode = await command.run(args);
  } catch (error) {
    const refusal = explained(error);
    if (refusal !== null) console.error(`furrowmark ${verb}: ${refusal}`);
    else
      console.error(`furrowmark ${verb}: this should not have happened. Please report it with these lines:\n`, error);
    process.exitCode = refusal === null ? 70 : 65;
  }
}
// Whatever still holds the process (a pool, a pipe) is not worth waiting for once the verb is done.
process.exit();
