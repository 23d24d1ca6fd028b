import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { TestService, type TestOperation } from './support/service.ts';

let service: TestService;
let op: TestOperation;

const id = { source: '', vessel: '', material: '', lot: '', field: '', batch: '', application: '' };
for (const name of Object.keys(id)) Reflect.set(id, name, randomUUID());

const record = (type: string, at: string, data: object, more: object = {}) => ({
  id: randomUUID(),
  type,
  version: 1,
  occurredAt: `2026-06-${at}:00-05:00`,
  ...more,
  data,
});
const gallons = (value: number) => ({ value, unit: '[gal_us]' });
const pounds = (value: number) => ({ value, unit: '[lb_av]' });
const oxygen = (at: string, value: number) =>
  record('batch.oxygenMeasured', at, { batchId: id.batch, dissolvedOxygen: { value, unit: 'mg/L' } });

/** One brew, its times chosen so that every figure can be worked by hand. */
const brew = [
  record('source.registered', '01T08:00', {
    sourceId: id.source,
    code: 'W1',
    kind: 'municipal',
    disinfectant: 'chlorine',
  }),
  record('vessel.registered', '01T08:00', {
    vesselId: id.vessel,
    code: 'Tote 2',
    totalVolume: gallons(330),
    workingVolume: gallons(300),
    previousContents: 'food',
  }),
  record('material.registered', '01T08:00', {
    materialId: id.material,
    code: 'WC',
    name: 'worm compost',
    kind: 'vermicompost',
    animalOrigin: 'yes',
    microbialFood: 'no',
  }),
  record('lot.received', '01T08:00', {
    lotId: id.lot,
    code: 'H-0312',
    materialId: id.material,
    supplierLot: '7731',
    quantity: pounds(50),
  }),
  record('field.registered', '01T08:00', {
    fieldId: id.field,
    code: 'North 4',
    kind: 'field',
    area: { value: 6, unit: '[acr_us]' },
    landStatus: 'organic',
  }),
  record('batch.opened', '02T05:30', { batchId: id.batch, code: 'T-14', kind: 'aeratedTea', vesselId: id.vessel }),
  record('batch.filled', '02T05:45', { batchId: id.batch, sourceId: id.source, volume: gallons(250) }),
  record('batch.airStarted', '02T05:45', { batchId: id.batch }),
  record('batch.ingredientAdded', '02T06:07', { batchId: id.batch, lotId: id.lot, quantity: pounds(5) }),
  oxygen('02T12:00', 7.8),
  oxygen('02T20:00', 7),
  oxygen('03T05:50', 6.4),
  record('batch.airStopped', '03T06:37', { batchId: id.batch, cause: 'planned' }),
  record('application.made', '03T15:49', {
    applicationId: id.application,
    targets: [{ fieldId: id.field, area: { value: 4, unit: '[acr_us]' } }],
    draws: [{ batchId: id.batch, volume: { value: 900, unit: 'L' } }],
    startedAt: '2026-06-03T06:50:00-05:00',
    finishedAt: '2026-06-03T15:49:00-05:00',
    method: 'soilDrench',
    applicator: randomUUID(),
  }),
  record('batch.closed', '03T16:00', { batchId: id.batch, remainingVolume: { value: 20, unit: 'L' } }),
];

beforeAll(async () => {
  service = await TestService.start();
  op = await service.operation();
  const { json } = await service.append(op.operationId, op.tokens.recorder, brew);
  const refused = json.results.filter((result: { status: string }) => result.status !== 'recorded');
  expect(refused).toEqual([]);
}, 60_000);
afterAll(() => service.close());

const get = (path: string) => service.get(`/api/v1/operations/${op.operationId}/${path}`, op.tokens.inspector);
const post = (path: string, body: unknown) =>
  service.call('POST', `/api/v1/operations/${op.operationId}/${path}`, op.tokens.manager, body);

describe('a batch read over HTTP', () => {
  it('has the figures worked by hand', async () => {
    const { json } = await get(`batches/${id.batch}`);
    expect(json).toMatchObject({
      batchId: id.batch,
      code: 'T-14',
      kind: 'aeratedTea',
      phase: 'closed',
      asOfSeq: brew.length,
    });
    expect(json.facts).toMatchObject({
      volumeFilled: gallons(250),
      sourceIds: [id.source],
      vesselId: id.vessel,
      // Air on at 5:45, food in at 6:07.
      preAerationMinutes: 22,
      // Food in at 6:07, air off at 6:37 the next day.
      brewHours: 24.5,
      // Air off at 6:37, application ended at 15:49.
      holdHours: 9.2,
      draws: [{ drawId: null, applicationId: id.application, volumeL: 900, brewHours: 24.5, holdHours: 9.2 }],
      // From 20:00 to 5:50.
      oxygen: { lowestMgPerL: 6.4, longestGapHours: 9.833333 },
      ingredients: [{ lotId: id.lot, materialId: id.material, quantity: pounds(5) }],
    });
    // 250 gal of 231 cubic inches of 2.54 cm: 946.352946 L (NIST Handbook 44, Appendix C).
    expect(json.facts.volume).toMatchObject({
      filledL: 946.352946,
      drawnL: 900,
      remainingL: 20,
      lostL: 0,
      disposedL: 0,
    });
    expect(json.facts.volume.unaccountedL).toBeCloseTo(26.352946, 6);
  });

  it('has broken the hold limit of 8 h, as a limit of its own, with the records used', async () => {
    const { json } = await get(`batches/${id.batch}`);
    const hold = json.outcomes.find((outcome: { ruleId: string }) => outcome.ruleId === 'hold-maximum');
    expect(hold).toMatchObject({
      outcome: 'broken',
      severity: 'minor',
      basis: 'practice',
      about: { kind: 'draw' },
      ruleBookSeq: null,
    });
    expect(hold.figures[0]).toMatchObject({ name: 'holdHours', value: 9.2, advised: 6, limit: 8 });
    expect(json.timeline).toHaveLength(10);
    expect(json.timeline[0]).toMatchObject({ type: 'batch.opened', state: 'current', history: [] });
  });

  it('as of an instant leaves out what happened later; as of a seq what was recorded later', async () => {
    const noon = await get(`batches/${id.batch}?at=2026-06-02T12:30:00-05:00`);
    expect(noon.json).toMatchObject({ phase: 'brewing' });
    expect(noon.json.facts.oxygen.readings).toHaveLength(1);
    // seq 0 describes the operation; 7 is the filling.
    const early = await get(`batches/${id.batch}?asOfSeq=7`);
    expect(early.json).toMatchObject({ phase: 'filled', asOfSeq: 7 });
    const before = await get(`batches/${id.batch}?knownAt=2020-01-01T00:00:00Z`);
    expect(before.status).toBe(404);
  });

  it('an amendment shows the new value, and the old one behind it', async () => {
    const own = await service.operation();
    const told = brew.map((each) => ({ ...each }));
    await service.append(own.operationId, own.tokens.recorder, told);
    const applied = told.find(({ type }) => type === 'application.made');
    // Air off at 6:37, application ended at 12:19: 5 h 42 min, within the advised 6 h.
    const amendment = record('record.amended', '03T17:00', {
      recordId: applied?.id,
      type: 'application.made',
      version: 1,
      data: { ...applied?.data, finishedAt: '2026-06-03T12:19:00-05:00' },
      occurredAt: '2026-06-03T12:19:00-05:00',
      reason: 'read the wrong clock',
    });
    expect((await service.append(own.operationId, own.tokens.recorder, [amendment])).json.results[0].status).toBe(
      'recorded',
    );
    const { json } = await service.get(
      `/api/v1/operations/${own.operationId}/batches/${id.batch}`,
      own.tokens.inspector,
    );
    expect(json.facts.holdHours).toBe(5.7);
    const line = json.timeline.find((each: { type: string }) => each.type === 'application.made');
    expect(line).toMatchObject({ state: 'amended', occurredAt: '2026-06-03T12:19:00-05:00' });
    expect(line.history[0]).toMatchObject({ kind: 'original', data: applied?.data });
    const resolved = await service.get(
      `/api/v1/operations/${own.operationId}/findings?state=resolved&ruleId=hold-maximum`,
      own.tokens.inspector,
    );
    expect(resolved.json.findings).toEqual([expect.objectContaining({ resolvedBy: amendment.id })]);
  });
});

describe('lists', () => {
  it('findings by rule, state, basis and time, page by page', async () => {
    const all = (await get('findings?state=all&limit=1000')).json.findings;
    expect(all.length).toBeGreaterThan(2);
    const hold = (await get('findings?ruleId=hold-maximum')).json;
    expect(hold).toMatchObject({ asOfSeq: brew.length, next: null });
    expect(hold.findings).toEqual([expect.objectContaining({ ruleId: 'hold-maximum', state: 'open', answers: [] })]);
    expect((await get('findings?ruleId=hold-maximum&state=answered')).json.findings).toEqual([]);
    expect((await get('findings?ruleId=hold-maximum&basis=regulation')).json.findings).toEqual([]);
    expect((await get('findings?ruleId=hold-maximum&from=2026-06-03&to=2026-06-03')).json.findings).toHaveLength(1);
    expect((await get('findings?ruleId=hold-maximum&from=2026-06-04')).json.findings).toEqual([]);
    const paged: unknown[] = [];
    for (let next: string | null = ''; next !== null;) {
      const page: { findings: unknown[]; next: string | null } = (
        await get(`findings?state=all&limit=1${next === '' ? '' : `&after=${next}`}`)
      ).json;
      paged.push(...page.findings);
      next = page.next;
    }
    expect(paged).toEqual(all);
  });

  it('batches by phase and time, page by page', async () => {
    for (const code of ['T-15', 'T-16']) {
      const batchId = randomUUID();
      await service.append(op.operationId, op.tokens.recorder, [
        record('batch.opened', code === 'T-15' ? '10T06:00' : '12T06:00', {
          batchId,
          code,
          kind: 'aeratedTea',
          vesselId: id.vessel,
        }),
      ]);
    }
    const codes = async (query: string) =>
      (await get(`batches${query}`)).json.batches.map((batch: { code: string }) => batch.code);
    expect(await codes('')).toEqual(['T-14', 'T-15', 'T-16']);
    expect(await codes('?phase=closed')).toEqual(['T-14']);
    expect(await codes('?from=2026-06-04&to=2026-06-11')).toEqual(['T-15']);
    const first = (await get('batches?limit=2')).json;
    expect(first.batches.map((batch: { code: string }) => batch.code)).toEqual(['T-14', 'T-15']);
    expect(await codes(`?limit=2&after=${first.next}`)).toEqual(['T-16']);
  });

  it.each([
    ['batches?phase=cooking', 'phase'],
    ['batches?from=yesterday', 'from'],
    ['batches?after=nonsense', 'after'],
    ['batches?limit=1001', 'limit'],
    ['batches?sort=code', 'sort'],
    ['findings?state=closed', 'state'],
    ['findings?severity=fatal', 'severity'],
    ['records?about=me', 'about'],
    ['records?after=-1', 'after'],
    ['rule-book?at=2026-06-03', 'at'],
    [`lots/${randomUUID()}/trace?direction=up`, 'direction'],
  ])('%s: 400, and the parameter is named', async (path, parameter) => {
    const answer = await get(path);
    expect(answer.status).toBe(400);
    expect(answer.json.errors.map((error: { parameter: string }) => error.parameter)).toContain(parameter);
  });

  it.each(['batches', 'lots', 'fields', 'harvests'])(
    'an unknown one of %s and one that is no id: 404',
    async (kind) => {
      const trace = kind === 'batches' ? '' : '/trace';
      for (const unknown of [randomUUID(), 'T-14', '__proto__', '%00']) {
        expect([kind, unknown, (await get(`${kind}/${unknown}${trace}`)).status]).toEqual([kind, unknown, 404]);
      }
    },
  );

  it('an answer that has not changed is not sent again', async () => {
    const first = await get(`batches/${id.batch}?at=2026-06-04T00:00:00Z`);
    const etag = first.headers.get('etag') ?? '';
    const path = `/api/v1/operations/${op.operationId}/batches/${id.batch}?at=2026-06-04T00:00:00Z`;
    const again = await service.get(path, op.tokens.inspector, { 'if-none-match': etag });
    expect(again.status).toBe(304);
    expect(again.text).toBe('');
  });
});

describe('a lot traced over HTTP', () => {
  it('to the field, with the share of it that ended there', async () => {
    const { json } = await get(`lots/${id.lot}/trace?direction=forward`);
    expect(json).toMatchObject({ root: { kind: 'lot', id: id.lot, code: 'H-0312' }, direction: 'forward' });
    const [field] = json.reached.fields;
    // 5 lb of 50 went in, of which 900 L of 946.352946 L were drawn: 4.75510 lb, 0.0951020 of the lot.
    expect(field).toMatchObject({ id: id.field, code: 'North 4', quantity: { unit: '[lb_av]' } });
    expect(field.quantity.value).toBeCloseTo(4.7551, 4);
    expect(field.share).toBeCloseTo(0.095102, 6);
    const edge = json.edges.find((each: { to: { kind: string } }) => each.to.kind === 'batch');
    expect(edge).toMatchObject({
      from: { kind: 'lot', id: id.lot },
      to: { kind: 'batch', id: id.batch },
      quantity: pounds(5),
    });
  });

  it('and back from the field', async () => {
    const { json } = await get(`fields/${id.field}/trace?direction=backward`);
    expect(json.reached.lots.map((lot: { id: string }) => lot.id)).toEqual([id.lot]);
    expect(json.reached.batches.map((batch: { id: string }) => batch.id)).toEqual([id.batch]);
  });
});

describe('asking before doing', () => {
  it('says that a record would break a limit, and records nothing', async () => {
    const before = (await get('records?limit=1000')).json.asOfSeq;
    const held = record('lot.held', '04T08:00', { lotId: id.lot, reason: 'smells' });
    await service.append(op.operationId, op.tokens.manager, [held]);
    const batchId = randomUUID();
    const { status, json } = await post('check', {
      records: [
        record('batch.opened', '05T06:00', { batchId, code: 'T-20', kind: 'aeratedTea', vesselId: id.vessel }),
        record('batch.ingredientAdded', '05T06:30', { batchId, lotId: id.lot, quantity: pounds(5) }),
      ],
    });
    expect(status).toBe(200);
    expect(json.outcomes).toEqual(
      expect.arrayContaining([expect.objectContaining({ ruleId: 'input-not-held', outcome: 'broken' })]),
    );
    expect((await get('records?limit=1000')).json.asOfSeq).toBe(before + 1);
    expect((await get(`batches/${batchId}`)).status).toBe(404);
  });

  it('shows what another limit would change', async () => {
    const entries = [{ ruleId: 'hold-maximum', parameters: { limitHours: 10 } }];
    const { json } = await post('rule-book/preview', { entries, from: '2026-06-01', to: '2026-06-30' });
    expect(json.changed).toEqual([
      expect.objectContaining({ batchId: id.batch, ruleId: 'hold-maximum', before: 'broken', after: 'caution' }),
    ]);
    expect((await post('rule-book/preview', { entries: [{ ruleId: 'no-such-rule' }] })).status).toBe(422);
  });
});
