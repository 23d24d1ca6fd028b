import { z } from 'zod';
import type { RunningService } from '../service.ts';
import { Client } from './client.ts';
import type { SeasonClock } from './clock.ts';
import { timeZone, type Entry, type Hand, type Written } from './season/index.ts';

/** The demo's four people, by what they are in the operation. */
export type Clients = Readonly<Record<Hand | 'inspector', Client>>;
export interface Recorded {
  readonly operationId: string;
  readonly clients: Clients;
  /** The records as they were sent, in that order. */
  readonly records: readonly Written[];
}

const created = z.object({ operationId: z.string() });
const appended = z.object({
  results: z.array(z.object({ id: z.string(), status: z.string(), problem: z.unknown().optional() })),
  log: z.object({ size: z.number() }),
});
const ROUND = 200;
const HOURS_TOGETHER = 2;

/** Records the season as a new operation, hour by hour on the season's clock, each person with a token of their own. */
export async function recordSeason(
  service: RunningService,
  clock: SeasonClock,
  entries: readonly Entry[],
): Promise<Recorded> {
  const [first] = entries;
  if (first === undefined) throw new Error('a season without records');
  clock.put(new Date(Date.parse(first.sentAt) - 600_000).toISOString());
  const manager = await person(service, 'Orla Vennick');
  const { operationId } = await manager.client.post(
    '/operations',
    {
      name: 'Quillfen Growers',
      timeZone,
      elevation: { value: 210, unit: 'm' },
      regimes: ['us-organic', 'us-produce-safety'],
    },
    created,
  );
  const member = async (name: string, role: 'recorder' | 'reviewer' | 'inspector'): Promise<Client> => {
    const { accountId, client } = await person(service, name);
    await service.grant({ operationId, accountId, role });
    return client;
  };
  const clients = {
    manager: manager.client,
    recorder: await member('Ines Harrow and Tobin Quay', 'recorder'),
    reviewer: await member('Sefa Lindgarth', 'reviewer'),
    inspector: await member('Inspector of the certifier', 'inspector'),
  };

  const records: Written[] = [];
  let lastSeq = 0;
  for (const group of together(entries)) {
    const [{ by }] = group;
    clock.put(group.at(-1)?.sentAt ?? first.sentAt);
    const written = group.map((entry) => entry.record({ operationId, lastSeq }));
    const answer = await clients[by].post(`/operations/${operationId}/records`, { records: written }, appended);
    const refused = answer.results.find((result) => result.status !== 'recorded');
    if (refused !== undefined) {
      const record = written.find((one) => one.id === refused.id);
      throw new Error(`the season's own record was ${refused.status}: ${JSON.stringify({ refused, record })}`);
    }
    lastSeq = answer.log.size - 1;
    records.push(...written);
  }
  clock.runOn();
  return { operationId, clients, records };
}

async function person(service: RunningService, name: string): Promise<{ accountId: string; client: Client }> {
  const { accountId } = await service.createAccount({ name });
  const { token } = await service.issueToken({ accountId, label: 'demo' });
  return { accountId, client: new Client(service.url, token) };
}

type Group = readonly [Entry, ...Entry[]];

/** What one person delivers within a couple of hours goes in one request; what must see the log first goes alone. */
function* together(entries: readonly Entry[]): Generator<Group> {
  let group: [Entry, ...Entry[]] | null = null;
  for (const entry of entries) {
    const joins =
      group !== null &&
      !entry.readsLog &&
      entry.by === group[0].by &&
      group.length < ROUND &&
      Date.parse(entry.sentAt) - Date.parse(group[0].sentAt) < HOURS_TOGETHER * 3_600_000;
    if (group !== null && joins) group.push(entry);
    else {
      if (group !== null) yield group;
      group = [entry];
    }
  }
  if (group !== null) yield group;
}
