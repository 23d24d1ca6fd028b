import { openService } from '../service.ts';
import { Refusal, type Command } from './command.ts';
import { settings } from './home.ts';
import { options } from './options.ts';

export const operation: Command = {
  verb: 'operation',
  usage: 'create --name NAME --time-zone ZONE [--elevation 210m|690ft] [--manager NAME]',
  purpose: "Makes an operation and prints its manager's token, this once: only a hash of it is kept.",
  async run(args) {
    const { given, rest } = options(args, ['name', 'time-zone', 'elevation', 'manager']);
    if (rest.join(' ') !== 'create')
      throw new Refusal('what there is to do with an operation here is "operation create".');
    const { name, 'time-zone': timeZone } = given;
    if (name === undefined || timeZone === undefined)
      throw new Refusal('--name and --time-zone are needed, such as --name "Our farm" --time-zone America/Chicago');
    const elevation = given.elevation === undefined ? {} : { elevation: lengthOf(given.elevation) };
    const service = await openService(settings());
    try {
      const manager = given.manager ?? `Manager of ${name}`;
      const { accountId } = await service.createAccount({ name: manager });
      const created = await service.createOperation({ accountId, name: manager }, { name, timeZone, ...elevation });
      if ('refused' in created)
        throw new Refusal(
          created.refused.errors.map(({ pointer, detail }) => `${pointer ?? ''} ${detail}`.trim()).join('; '),
        );
      const { token } = await service.issueToken({ accountId, label: 'operation create' });
      console.log(`operation  ${created.operationId}\ntoken      ${token}`);
      console.error('Keep the token: it is shown this once. Whoever has it is the manager.');
      console.error(
        'To begin, open the address that `npm start` prints and enter it under "I have a token or a link".',
      );
    } finally {
      await service.close();
    }
    return 0;
  },
};

/** `210m` or `690ft`, as a quantity. */
function lengthOf(text: string): { readonly value: number; readonly unit: string } {
  const [, value, unit] = /^(-?\d+(?:\.\d+)?) ?(m|ft)$/.exec(text) ?? [];
  if (value === undefined) throw new Refusal(`--elevation is "${text}"; write metres or feet, such as 210m or 690ft.`);
  return { value: Number(value), unit: unit === 'ft' ? '[ft_i]' : 'm' };
}
