import { calculations, isCalculation, isRefusal } from '@furrowmark/domain';
import { Refusal, type Command } from './command.ts';
import { options } from './options.ts';

const names = Object.keys(calculations).toSorted();

export const calc: Command = {
  verb: 'calc',
  usage: "NAME '{…}'",
  purpose: `Calculates, with the same JSON in and out as POST /api/v1/calc/NAME; nothing is recorded. Names: ${names.join(', ')}.`,
  run(args) {
    const { rest } = options(args, []);
    const [name, text, ...more] = rest;
    if (name === undefined || text === undefined || more.length > 0)
      throw new Refusal(
        `a name and one JSON object are needed, such as: calc convert '{"quantity":{"value":1,"unit":"[gal_us]"},"to":"L"}'`,
      );
    if (!isCalculation(name)) throw new Refusal(`there is no calculation "${name}". There are: ${names.join(', ')}.`);
    const answer = calculations[name].run(parsed(text));
    if (isRefusal(answer)) {
      const { detail, errors } = answer.refused;
      throw new Refusal([detail, ...errors.map((error) => `  ${error.pointer} ${error.detail}`)].join('\n'));
    }
    console.log(JSON.stringify(answer));
    return Promise.resolve(0);
  },
};

function parsed(text: string): unknown {
  try {
    const value: unknown = JSON.parse(text);
    return value;
  } catch (error) {
    throw new Refusal(`what follows the name is not JSON: ${error instanceof Error ? error.message : String(error)}`);
  }
}
