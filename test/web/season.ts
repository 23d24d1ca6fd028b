import type { RunningService } from '@furrowmark/api';
import { recordSeason, SeasonClock, seasonYear, writeSeason } from '../../apps/api/src/demo/index.ts';
import { startService } from '@furrowmark/api';
import { testDatabase } from '../support/database.ts';

/** The demo's season, recorded, for the desk to look at. */
export interface SeasonService {
  readonly service: RunningService;
  readonly url: string;
  readonly operationId: string;
  readonly tokens: Readonly<Record<'manager' | 'recorder' | 'reviewer' | 'inspector', string>>;
  /** An id by a code of the season: `FH-1`, `T-05`, `H-0826`. */
  id(type: string, code: string, member: string): string;
}

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
  return {
    ...{ service, url: service.url, operationId, tokens },
    id(type, code, member) {
      const found = records.find(({ type: of, data }) => of === type && Reflect.get(data, 'code') === code);
      const id: unknown = found === undefined ? undefined : Reflect.get(found.data, member);
      if (typeof id !== 'string') throw new Error(`the season has no ${type} ${code}`);
      return id;
    },
  };
}
