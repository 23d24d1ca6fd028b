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

describe('text', () => {
  const take = (path: string, encoding: string) =>
    fetch(service.url + path, { headers: { 'accept-encoding': encoding } });

  it('is sent compressed to whoever takes it so, and as it is to others, with the same words', async () => {
    const plain = await take('/api/openapi.json', 'identity');
    expect(plain.headers.get('content-encoding')).toBeNull();
    for (const encoding of ['gzip', 'br']) {
      const packed = await take('/api/openapi.json', encoding);
      expect(packed.headers.get('content-encoding')).toBe(encoding);
      expect(packed.headers.get('vary')).toMatch(/accept-encoding/i);
      // Another representation of the same: RFC 9110, 8.8.3.3.
      expect(packed.headers.get('etag')).toBe(`W/${plain.headers.get('etag') ?? ''}`);
      expect(await packed.text()).toBe(await (await take('/api/openapi.json', 'identity')).text());
    }
  });

  it('has not changed is said to either tag', async () => {
    const tag = (await take('/api/openapi.json', 'gzip')).headers.get('etag') ?? '';
    for (const each of [tag, tag.slice(2)]) {
      const headers = { 'if-none-match': each, 'accept-encoding': 'gzip' };
      expect((await fetch(`${service.url}/api/openapi.json`, { headers })).status).toBe(304);
    }
  });

  it('that signs people in is not, however long: its length would tell of the secret in it', async () => {
    const { accountId } = await service.createAccount({ name: 'Ines' });
    const { token } = await service.issueToken({ accountId, label: 'trial' });
    const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json', 'accept-encoding': 'gzip' };
    const body = JSON.stringify({ name: 'Quillfen Growers, the upper farm', timeZone: 'America/New_York' });
    for (let n = 0; n < 12; n += 1) await fetch(`${service.url}/api/v1/operations`, { method: 'POST', headers, body });
    const answer = await fetch(`${service.url}/api/v1/session`, { headers });
    expect((await answer.clone().arrayBuffer()).byteLength).toBeGreaterThan(1_024);
    expect(answer.headers.get('content-encoding')).toBeNull();
  });
});

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
