import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { startService, type RunningService } from '@furrowmark/api';
import { Alerts } from '../apps/api/src/alerts/index.ts';
import { testDatabase } from './support/database.ts';
import { mailServer, type MailServer, type ReceivedLetter } from './support/mail-server.ts';

/* Letters go through a real mail server; the clock is the test's. Times of the operation's zone: UTC−5 in June. */
const minute = 60_000;
const hour = 60 * minute;
const at = (time: string, day = '02'): number => Date.parse(`2026-06-${day}T${time}-05:00`);

let post: MailServer;
let now = at('06:00');
let service: RunningService;
let mail: { url: string; from: string };
let where: Awaited<ReturnType<typeof testDatabase>>;
let op: string;
let manager: string;
let recorder: string;
const batchId = randomUUID();
const [sourceId, vesselId, lotId, materialId] = [randomUUID(), randomUUID(), randomUUID(), randomUUID()];

const start = (): Promise<RunningService> => startService({ ...where, mail, log: 'silent', clock: { now: () => now } });
const look = (): Promise<void> => service.context.get(Alerts).look();

async function call(method: string, path: string, token: string, body?: unknown) {
  const answer = await fetch(`${service.url}/api/v1/operations/${op}${path}`, {
    method,
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  const text = await answer.text();
  return { status: answer.status, json: text === '' ? null : JSON.parse(text) };
}
async function append(...records: readonly (readonly [type: string, at: number, data: object])[]): Promise<void> {
  const { json } = await call('POST', '/records', manager, {
    records: records.map(([type, when, data]) => ({
      ...{ id: randomUUID(), type, version: 1, occurredAt: new Date(when).toISOString(), data },
    })),
  });
  expect(json.results.filter((each: { status: string }) => each.status !== 'recorded')).toEqual([]);
}
const oxygen = (when: number, value = 7) =>
  append(['batch.oxygenMeasured', when, { batchId, dissolvedOxygen: { value, unit: 'mg/L' } }]);
const gal = (value: number) => ({ value, unit: '[gal_us]' });
/** What is told of what, each letter a list. */
const toldOf = (letter: ReceivedLetter | undefined): readonly string[] =>
  (letter?.text ?? '').split('\n').filter((line) => line.startsWith('- '));

beforeAll(async () => {
  post = await mailServer();
  mail = { url: post.url, from: 'Furrowmark <records@quillfen.example>' };
  where = await testDatabase();
  service = await start();
  const ines = await service.createAccount({ name: 'Ines' });
  const made = await service.createOperation(
    { accountId: ines.accountId, name: 'Ines' },
    { name: 'Quillfen Growers', timeZone: 'America/Chicago' },
  );
  if (!('operationId' in made)) throw new Error('no operation');
  op = made.operationId;
  manager = (await service.issueToken({ accountId: ines.accountId, label: 'test' })).token;
  const ruth = await service.createAccount({ name: 'Ruth' });
  await service.grant({ operationId: op, accountId: ruth.accountId, role: 'recorder' });
  recorder = (await service.issueToken({ accountId: ruth.accountId, label: 'test' })).token;
  await append(
    ['source.registered', now, { sourceId, code: 'W1', kind: 'well', disinfectant: 'none' }],
    [
      'vessel.registered',
      now,
      { vesselId, code: 'Tote 2', totalVolume: gal(330), workingVolume: gal(300), previousContents: 'none' },
    ],
    [
      'material.registered',
      now,
      { materialId, code: 'CP', name: 'compost', kind: 'compost', animalOrigin: 'no', microbialFood: 'no' },
    ],
    [
      'lot.received',
      now,
      { lotId, code: 'C-1', materialId, supplierLot: '1', quantity: { value: 50, unit: '[lb_av]' } },
    ],
    ['batch.opened', now, { batchId, code: 'T-14', kind: 'aeratedTea', vesselId }],
    ['batch.filled', now, { batchId, sourceId, volume: gal(250) }],
    ['batch.airStarted', now, { batchId }],
    ['batch.ingredientAdded', now, { batchId, lotId, quantity: { value: 5, unit: '[lb_av]' } }],
    ['batch.oxygenMeasured', now, { batchId, dissolvedOxygen: { value: 7, unit: 'mg/L' } }],
  );
}, 90_000);
afterAll(async () => {
  await service.close();
  await post.close();
}, 30_000);
beforeEach(() => {
  post.letters = [];
  post.refusing = null;
});

describe('alerts by e-mail', () => {
  it('go to nobody who did not ask, and come at once to who did: the oxygen reading 12 h after the last', async () => {
    expect((await call('GET', '/alerts', recorder)).json).toEqual({ choice: null, mail: true });
    now = at('18:00');
    await look();
    expect(post.letters).toEqual([]);
    const choice = { address: 'ruth@quillfen.example', tells: ['tank'], language: 'es' };
    const set = await call('PUT', '/alerts', recorder, choice);
    expect(set.json.choice).toMatchObject({ ...choice, quiet: { from: '21:00', until: '05:30' } });
    await look();
    expect(post.letters).toHaveLength(1);
    const [letter] = post.letters;
    expect(letter?.headers.get('from')).toContain('records@quillfen.example');
    expect(letter?.to).toEqual(['ruth@quillfen.example']);
    expect(letter?.headers.get('subject')).toContain('T-14, anote el oxígeno');
    expect(toldOf(letter)).toContain('- T-14: anote el oxígeno (2026-06-02 18:00 CDT (UTC-05:00))');
    expect(letter?.headers.get('auto-submitted')).toBe('auto-generated');
    // Nothing that anybody wrote, and nobody's name.
    expect(letter?.text).not.toMatch(/Ines|Ruth/);
  });

  it('are not sent again: not with the next look, not after a restart', async () => {
    now += 10 * minute;
    await look();
    await service.close();
    service = await start();
    now += 10 * minute;
    await look();
    expect(post.letters).toEqual([]);
  }, 60_000);

  it('that the mail server did not take go out later with the same id; the screen says why they did not', async () => {
    await oxygen(now);
    now += 12 * hour;
    post.refusing = 'mailbox over quota';
    await look();
    const { json } = await call('GET', '/alerts', recorder);
    expect(json.choice.failure).toMatch(/mailbox over quota/);
    post.refusing = null;
    // Not with every look at the clock, but after a while.
    await look();
    expect(post.letters).toEqual([]);
    await service.close();
    service = await start();
    now += 5 * minute;
    await look();
    expect(post.letters).toHaveLength(1);
    expect(toldOf(post.letters[0])).toContain('- T-14: anote el oxígeno (2026-06-03 06:20 CDT (UTC-05:00))');
    expect(post.letters[0]?.headers.get('message-id')).toMatch(/^<[0-9a-f-]{36}@quillfen\.example>$/);
    expect((await call('GET', '/alerts', recorder)).json.choice.failure).toBeNull();
  }, 60_000);

  it('wait for the morning, but for air and oxygen', async () => {
    // 3 June. Read at 13:00; the air goes off at 15:00: the tea is to be applied by 21:00, at the latest by 23:00.
    await oxygen(at('13:00', '03'));
    await append(['batch.airStopped', at('15:00', '03'), { batchId, cause: 'planned' }]);
    now = at('15:01', '03');
    await look();
    post.letters = [];
    now = at('21:30', '03');
    const asked = { address: 'ines@quillfen.example', quiet: { from: '21:00', until: '05:30' } };
    await call('PUT', '/alerts', manager, { ...asked, tells: ['tank', 'broken'] });
    await look();
    expect(post.letters.flatMap(toldOf)).toEqual([]);
    // A reading below 6 mg/L does not wait.
    now = at('22:00', '03');
    await oxygen(now, 4);
    // What was recorded is noticed a moment later, without anybody asking.
    await new Promise((done) => setTimeout(done, 3_500));
    // An hour is left to correct it.
    now = at('23:01', '03');
    await look();
    expect(post.letters.filter(({ to }) => to.includes('ines@quillfen.example')).flatMap(toldOf)).toContain(
      '- T-14: Oxygen high enough (2026-06-03 22:00 CDT (UTC-05:00))',
    );
    post.letters = [];
    now = at('23:30', '03');
    await look();
    expect(post.letters.flatMap(toldOf)).toEqual([]);
    now = at('05:36', '04');
    await look();
    const [morning, ...others] = post.letters.filter(({ to }) => to.includes('ines@quillfen.example'));
    expect(others).toEqual([]);
    expect(toldOf(morning)).toContain('- T-14: apply the tea by this time (2026-06-03 23:00 CDT (UTC-05:00))');
    expect(morning?.text).not.toContain('21:00');
    post.letters = [];
    now += 6 * minute;
    await look();
    expect(post.letters).toEqual([]);
  }, 60_000);

  it('of what was done in the night do not come in the morning', async () => {
    const [drawn, end] = [at('21:40', '05'), at('22:10', '05')];
    await append(['batch.airStarted', at('06:00', '04'), { batchId }]);
    now = at('15:10', '05');
    await append(['batch.airStopped', now, { batchId, cause: 'planned' }]);
    now = at('15:11', '05');
    await look();
    now = at('21:15', '05');
    await look();
    now = end;
    await append([
      'application.made',
      end,
      {
        ...{
          applicationId: randomUUID(),
          targets: [{ fieldId: randomUUID() }],
          method: 'soilDrench',
          applicator: randomUUID(),
        },
        ...{ draws: [{ batchId, volume: gal(250), drawnAt: new Date(drawn).toISOString() }] },
        ...{ startedAt: new Date(drawn).toISOString(), finishedAt: new Date(end).toISOString() },
      },
    ]);
    post.letters = [];
    now = at('05:40', '06');
    await look();
    expect(post.letters.flatMap(toldOf).filter((line) => /apply the tea/.test(line))).toEqual([]);
  }, 60_000);

  it('end with a word: the address is forgotten and nothing comes any more', async () => {
    expect((await call('DELETE', '/alerts', manager)).status).toBe(204);
    expect((await call('DELETE', '/alerts', recorder)).status).toBe(204);
    expect((await call('GET', '/alerts', manager)).json.choice).toBeNull();
    await append(['batch.airStarted', now, { batchId }]);
    now += 13 * hour;
    await look();
    expect(post.letters).toEqual([]);
  });

  it.each([
    [{ address: 'nobody', tells: ['tank'] }, '/address'],
    [{ address: 'a@b.example', tells: [] }, '/tells'],
    [{ address: 'a@b.example', tells: ['tank'], quiet: { from: '25:00', until: '05:00' } }, '/quiet/from'],
  ])('a choice that cannot be kept names what is wrong: %j', async (body, pointer) => {
    const { status, json } = await call('PUT', '/alerts', recorder, body);
    expect(status).toBe(422);
    expect(json.errors.map((each: { pointer: string }) => each.pointer)).toContain(pointer);
  });
});
