import { OperationScope } from '../database/index.ts';
import { openService, type Service } from '../service.ts';
import { Refusal } from './command.ts';
import { settings } from './home.ts';

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** The id that --operation gives; refused where it is missing or no id. */
export function operationIdOf(text: string | undefined): string {
  if (text === undefined) throw new Refusal('--operation ID is needed: `operation create` printed it.');
  if (!UUID.test(text))
    throw new Refusal(`--operation is "${text}"; it must be the operation's id, a UUID in lower case.`);
  return text;
}

/** Opens the data on this machine, does the work on an operation that is there, and closes it again. */
export async function withOperation<T>(operationId: string, work: (service: Service) => Promise<T>): Promise<T> {
  const service = await openService(settings());
  try {
    const known: unknown = await service.context
      .get(OperationScope)
      .run(operationId, (manager) => manager.query('SELECT 1 FROM operation WHERE operation_id = $1', [operationId]));
    if (!Array.isArray(known) || known.length === 0)
      throw new Refusal(`there is no operation ${operationId} on this machine.`);
    return await work(service);
  } finally {
    await service.close();
  }
}
