import { catalogue } from './catalogue.ts';
import type { Command } from './command.ts';

/** Lists the verbs, or explains one. Not in the catalogue, which it reads. */
export const help: Command = {
  verb: 'help',
  usage: '[VERB]',
  purpose: 'Lists the verbs, or explains one.',
  run: ([wanted]) => {
    const commands = wanted === undefined ? [...catalogue, help] : catalogue.filter((one) => one.verb === wanted);
    const lines = commands.map((one) => `  ${`${one.verb} ${one.usage}`.trim()}\n      ${one.purpose}`);
    console.log(`npm run furrowmark -- VERB …\n\n${lines.join('\n')}`);
    return Promise.resolve(0);
  },
};
