import { role as roleOf, SignIn } from '../access/index.ts';
import { Invitations, type NewInvitation } from '../granting/index.ts';
import { openService, type Service } from '../service.ts';
import { Refusal, type Command } from './command.ts';
import { settings } from './home.ts';
import { options } from './options.ts';

export const person: Command = {
  verb: 'person',
  usage: 'invite --operation ID --name NAME --role manager|reviewer|recorder|inspector | reset --login NAME',
  purpose:
    'Prints an invitation with which a person chooses a sign-in name and a password, or (reset) a new password. It works once, for a week.',
  async run(args) {
    const { given, rest } = options(args, ['operation', 'name', 'role', 'login']);
    const [what, ...more] = rest;
    if (more.length > 0 || (what !== 'invite' && what !== 'reset'))
      throw new Refusal('what there is to do with a person here is "person invite" and "person reset".');
    const service = await openService(settings());
    try {
      const asked = what === 'invite' ? await invited(service, given) : await forgotten(service, given);
      const { invitation, expiresAt } = await service.context.get(Invitations).make(asked);
      console.log(`invitation  ${invitation}\nvalid until ${expiresAt.toISOString()}`);
      console.error('Hand it over yourself: whoever has it can accept it, once, at /#invitation=… of the service.');
    } finally {
      await service.close();
    }
    return 0;
  },
};

type Given = Readonly<Partial<Record<'operation' | 'name' | 'role' | 'login', string>>>;

async function invited(service: Service, { operation, name, role: text }: Given): Promise<NewInvitation> {
  const role = roleOf.safeParse(text);
  if (operation === undefined || name === undefined || !role.success)
    throw new Refusal('--operation, --name and --role (manager, reviewer, recorder or inspector) are needed.');
  const known: unknown = await service.database.dataSource.transaction(async (manager) => {
    await manager.query(`SELECT set_config('app.operation_id', $1, true)`, [operation]);
    return manager.query('SELECT 1 FROM operation WHERE operation_id::text = $1', [operation]);
  });
  if (!Array.isArray(known) || known.length === 0)
    throw new Refusal(`there is no operation ${operation} on this machine.`);
  return { operationId: operation, name, role: role.data };
}

async function forgotten(service: Service, { login }: Given): Promise<NewInvitation> {
  if (login === undefined) throw new Refusal('--login is needed: the name that the person signs in with.');
  const accountId = await service.context.get(SignIn).accountOf(login);
  if (accountId === null) throw new Refusal(`nobody signs in as "${login}".`);
  return { accountId, name: login };
}
