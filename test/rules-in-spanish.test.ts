import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startService, type RunningService } from '@furrowmark/api';
import { z } from 'zod';
import { allFindings, recordSeason, SeasonClock, writeSeason } from '../apps/api/src/demo/index.ts';
import { englishIn } from '../libs/rules/src/testing/english-left.ts';
import { testDatabase } from './support/database.ts';

// The demo's season over HTTP, asked for in Spanish: its records are English, the rules are not.
const clock = new SeasonClock();
let service: RunningService;
let recorded: Awaited<ReturnType<typeof recordSeason>>;
beforeAll(async () => {
  const { dataDir, databaseUrl } = await testDatabase();
  service = await startService({ dataDir, databaseUrl, clock, log: 'error' });
  recorded = await recordSeason(service, clock, writeSeason(2026));
  clock.put('2026-11-25T12:00:00-05:00');
}, 120_000);
afterAll(() => service.close());

const said = z.object({ ruleId: z.string(), title: z.string(), message: z.string(), due: z.string().optional() });
const listed = z.object({ findings: z.array(said), next: z.string().nullable() });
const batch = z.object({ outcomes: z.array(said) });
const batches = z.object({ batches: z.array(z.object({ batchId: z.string() })) });

async function ask<T extends z.ZodType>(path: string, shape: T, language: string): Promise<z.output<T>> {
  const answer = await fetch(`${service.url}/api/v1/operations/${recorded.operationId}${path}`, {
    headers: { authorization: `Bearer ${recorded.clients.inspector.token}`, 'accept-language': language },
  });
  expect(answer.headers.get('content-language')).toBe(language.startsWith('es') ? 'es' : 'en');
  expect(answer.headers.get('vary')).toMatch(/Accept-Language/i);
  return shape.parse(await answer.json());
}

describe('sentences of the rules over HTTP', () => {
  it('are Spanish where Spanish is asked for: every finding and every outcome of every batch', async () => {
    const { findings } = await ask('/findings?state=all&limit=1000', listed, 'es-MX,es;q=0.9,en;q=0.3');
    expect(findings.length).toBeGreaterThan(50);
    const { batches: all } = batches.parse(
      await recorded.clients.inspector.get(`/operations/${recorded.operationId}/batches?limit=1000`, batches),
    );
    expect(all.length).toBe(28);
    const outcomes = [...findings];
    for (const { batchId } of all) outcomes.push(...(await ask(`/batches/${batchId}`, batch, 'es')).outcomes);
    expect(outcomes.length).toBeGreaterThan(1000);
    const texts = recorded.records.map(({ data }) => data);
    expect(englishIn(texts, [...new Set(outcomes.map(({ message }) => message))])).toEqual([]);
    expect(englishIn(texts, [...new Set(outcomes.flatMap(({ title, due = '' }) => [title, due]))])).toEqual([]);
    expect(findings.map(({ message }) => message)).toContain(
      'Fuera de su límite. Se aplicó 9 h 12 min después de su último aire a las 07:05 del 29 de abril de 2026; el límite es 8 h.',
    );
  }, 120_000);

  it('are English otherwise, the same as without the header', async () => {
    const { findings } = await ask('/findings?state=all&limit=1000', listed, 'de,en;q=0.5');
    const messages = findings.map(({ message }) => message).sort();
    const without = await allFindings(recorded.clients.inspector, recorded.operationId);
    expect(messages).toEqual(without.map(({ message }) => message).sort());
  });
});
