import type { RunningService } from '@furrowmark/api';
import { recordSeason, SeasonClock, seasonYear, writeSeason } from '../../apps/api/src/demo/index.ts';
import { startService } from '@furrowmark/api';
import { testDatabase } from '../support/database.ts';
import { until } from '../support/until.ts';

/** The demo's season, recorded, for the desk to look at. */
export interface SeasonService {
  readonly service: RunningService;
  readonly url: string;
  readonly operationId: string;
  readonly tokens: Readonly<Record<'manager' | 'recorder' | 'reviewer' | 'inspector', string>>;
  /** An id by a code of the season: `FH-1`, `T-05`, `H-0826`. */
  id(type: string, code: string, member: string): string;
  /** Waits for a record of a type that a page wrote; gives its data. */
  written(type: string, fits: (data: Data) => boolean): Promise<Data>;
}

export type Data = Readonly<Record<string, unknown>>;

/** Starts a service and records the season of the last year that is over. */
export async function seasonService(): Promise<SeasonService> {
  const { dataDir, databaseUrl } = await testDatabase();
  const clock = new SeasonClock();
  const service = await startService({ dataDir, databaseUrl, clock, log: 'error' });
  const { operationId, clients, records } = await recordSeason(service, clock, writeSeason(seasonYear(new Date())));
  const tokens = {
    manager: clients.manager.token,
    recorder: clients.recorder.token,
    reviewer: clients.reviewer.token,
    inspector: clients.inspector.token,
  };
  const ofType = async (type: string): Promise<readonly { readonly data: Data }[]> => {
    const answer = await fetch(
      `${service.url}/api/v1/operations/${operationId}/records?limit=1000&type=${type}`,
      { headers: { authorization: `Bearer ${tokens.manager}` } }, // prettier-ignore
    );
    return JSON.parse(await answer.text()).records;
  };
  return {
    ...{ service, url: service.url, operationId, tokens },
    written: (type, fits) => until(async () => (await ofType(type)).find(({ data }) => fits(data))?.data),
    id(type, code, member) {
      const found = records.find(({ type: of, data }) => of === type && Reflect.get(data, 'code') === code);
      const id: unknown = found === undefined ? undefined : Reflect.get(found.data, member);
      if (typeof id !== 'string') throw new Error(`the season has no ${type} ${code}`);
      return id;
    },
  };
}
