import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startService, type RunningService } from '@furrowmark/api';
import { testDatabase } from './support/database.ts';

let service: RunningService;
const friend = 'https://office.example';
beforeAll(async () => {
  const { dataDir, databaseUrl } = await testDatabase();
  service = await startService({ dataDir, databaseUrl, log: 'error', origins: [friend] });
}, 60_000);
afterAll(() => service.close());

const ask = async (path: string, headers: Record<string, string> = {}, method = 'GET') =>
  (await fetch(service.url + path, { method, headers })).headers;

describe('every answer', () => {
  it.each(['/api/v1/operations', '/healthz', '/page/page.js', '/nowhere'])(
    '%s: no foreign script, frame or guess at the type',
    async (path) => {
      const headers = await ask(path);
      const policy = headers.get('content-security-policy') ?? '';
      expect(policy).toContain("default-src 'self'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toContain('unsafe');
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('referrer-policy')).toBe('no-referrer');
      expect(headers.get('strict-transport-security')).toMatch(/max-age=\d{7,}/);
      expect(headers.get('x-powered-by')).toBeNull();
    },
  );

  it('what a person may see is kept by nobody in between', async () => {
    expect((await ask('/api/v1/operations')).get('cache-control')).toBe('no-store');
  });
});

describe('pages of other sites', () => {
  const preflight = (origin: string) =>
    ask('/api/v1/operations', { origin, 'access-control-request-method': 'POST' }, 'OPTIONS');

  it('that were named may ask with a token, never with a cookie', async () => {
    const headers = await preflight(friend);
    expect(headers.get('access-control-allow-origin')).toBe(friend);
    expect(headers.get('access-control-allow-headers')).toContain('Authorization');
    expect(headers.get('access-control-allow-credentials')).toBeNull();
    expect((await ask('/api/v1/operations', { origin: friend })).get('access-control-allow-origin')).toBe(friend);
  });

  it('that were not named may not', async () => {
    for (const origin of ['https://elsewhere.example', 'null', `${friend}.evil.example`]) {
      expect([origin, (await preflight(origin)).get('access-control-allow-origin')]).toEqual([origin, null]);
    }
  });
});
