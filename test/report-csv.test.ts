import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { example } from '../libs/domain/src/records/corpus/read.ts';
import { TestService } from './support/service.ts';

let service: TestService;
beforeAll(async () => {
  service = await TestService.start();
}, 60_000);
afterAll(() => service.close());

describe('a report as CSV', () => {
  it('names its tables in a header whatever a pile is called, and gives the one that is asked for', async () => {
    const { operationId, tokens } = await service.operation();
    const code = 'Haufen “Größe”, 堆肥 🧪 100 %';
    const pile = { ...example('pile.started', { code }), id: randomUUID() };
    expect((await service.append(operationId, tokens.recorder, [pile])).json.results[0].status).toBe('recorded');
    const address = `/api/v1/operations/${operationId}/reports/own-compost.csv`;
    const first = await service.get(address, tokens.inspector);
    expect(first.status).toBe(200);
    const named = (first.headers.get('furrowmark-tables') ?? '').split(', ').map(decodeURIComponent);
    expect(named.join()).toContain(code);
    for (const table of named) {
      const answer = await service.get(`${address}?table=${encodeURIComponent(table)}`, tokens.inspector);
      expect(answer.status).toBe(200);
    }
  });
});
