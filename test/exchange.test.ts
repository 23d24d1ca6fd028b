import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { TestService, type TestOperation } from './support/service.ts';

let service: TestService;
let op: TestOperation;
const [fieldId, materialId, lotId, batchId, vesselId, sourceId, personId, applicationId] = Array.from(
  { length: 8 },
  randomUUID,
);
const at = (time: string) => `2026-06-02T${time}:00-04:00`;
const record = (type: string, time: string, data: object) => ({
  id: randomUUID(),
  type,
  version: 1,
  occurredAt: at(time),
  data,
});
const gal = (value: number) => ({ value, unit: '[gal_us]' });
const base = () => `/api/v1/operations/${op.operationId}`;

beforeAll(async () => {
  service = await TestService.start({ clock: { now: () => Date.parse(at('18:30')) } });
  op = await service.operation();
  const outline = {
    type: 'Polygon',
    coordinates: [
      [
        [-76, 42],
        [-76, 42.002],
        [-75.998, 42.002],
        [-75.998, 42],
        [-76, 42],
      ],
    ],
  };
  const answer = await service.append(op.operationId, op.tokens.manager, [
    record('person.registered', '07:00', { personId, personal: { name: 'Ines Harrow', address: '12 Quillfen Lane' } }),
    record('field.registered', '07:00', {
      fieldId,
      code: 'North 4',
      kind: 'field',
      landStatus: 'organic',
      boundary: outline,
    }),
    record('source.registered', '07:00', { sourceId, code: 'Barn well', kind: 'well', disinfectant: 'none' }),
    record('vessel.registered', '07:00', {
      vesselId,
      code: 'Tote 2',
      totalVolume: gal(330),
      workingVolume: gal(300),
      previousContents: 'none',
    }),
    record('material.registered', '07:00', {
      materialId,
      code: 'CP',
      name: 'compost',
      kind: 'compost',
      animalOrigin: 'no',
      microbialFood: 'no',
    }),
    record('lot.received', '07:00', {
      lotId,
      code: 'C-1',
      materialId,
      supplierLot: '1',
      quantity: { value: 50, unit: '[lb_av]' },
    }),
    record('batch.opened', '08:00', { batchId, code: 'T-14', kind: 'aeratedTea', vesselId }),
    record('batch.filled', '08:10', { batchId, sourceId, volume: gal(250) }),
    record('batch.airStarted', '08:20', { batchId }),
    record('batch.ingredientAdded', '09:00', { batchId, lotId, quantity: { value: 5, unit: '[lb_av]' } }),
    record('application.made', '18:00', {
      ...{ applicationId, code: 'A-1', targets: [{ fieldId }], draws: [{ batchId, volume: gal(100) }] },
      ...{ startedAt: at('17:00'), finishedAt: at('18:00'), method: 'soilDrench', applicator: personId },
    }),
  ]);
  expect(answer.json.results.map((each: { status: string }) => each.status)).toEqual(Array(11).fill('recorded'));
}, 60_000);
afterAll(() => service.close());

const stepsOf = (document: { epcisBody: { eventList: { bizStep: string }[] } }) =>
  document.epcisBody.eventList.map(({ bizStep }) => bizStep);

describe('traceability events as linked data', () => {
  it('come by ending and by Accept, as application/ld+json', async () => {
    const address = `${base()}/reports/traceability-events`;
    const byEnding = await service.get(`${address}.jsonld?from=2026-06-01&to=2026-06-30`, op.tokens.inspector);
    expect(byEnding.status).toBe(200);
    expect(byEnding.headers.get('content-type')).toMatch(/^application\/ld\+json/);
    expect(stepsOf(byEnding.json)).toEqual(['receiving', 'commissioning', 'other']);
    const byType = await service.get(`${address}?from=2026-06-01&to=2026-06-30`, op.tokens.inspector, {
      accept: 'application/ld+json',
    });
    expect(byType.headers.get('content-type')).toMatch(/^application\/ld\+json/);
    expect(byType.json.epcisBody).toEqual(byEnding.json.epcisBody);
  });

  it('of one lot come from its trace; a kind without that form says which it has', async () => {
    const trace = await service.get(`${base()}/reports/lot-trace.jsonld?lotId=${lotId}`, op.tokens.inspector);
    expect(stepsOf(trace.json)).toEqual(['receiving', 'commissioning', 'other']);
    expect((await service.get(`${base()}/reports/stock.jsonld`, op.tokens.inspector)).status).toBe(404);
    const refused = await service.get(`${base()}/reports/stock`, op.tokens.inspector, {
      accept: 'application/ld+json',
    });
    expect(refused.status).toBe(406);
    expect(refused.json.detail).not.toContain('ld+json');
    const { json } = await service.get(`${base()}/reports`, op.tokens.inspector);
    const forms = Object.fromEntries(
      json.reports.map((each: { kind: string; forms: string[] }) => [each.kind, each.forms]),
    );
    expect(forms['traceability-events']).toContain('jsonld');
    expect(forms['stock']).not.toContain('jsonld');
  });

  it('take GS1 keys and refuse mistyped ones by name', async () => {
    const wrong = await service.get(
      `${base()}/reports/traceability-events.jsonld?gln=6291041500214`,
      op.tokens.manager,
    );
    expect([wrong.status, wrong.json.errors[0].parameter]).toEqual([400, 'gln']);
    const right = await service.get(
      `${base()}/reports/traceability-events.jsonld?gln=6291041500213&from=2026-06-01&to=2026-06-30`,
      op.tokens.manager,
    );
    expect(right.text).toContain('https://id.gs1.org/414/6291041500213');
  });

  it('are not for people outside', async () => {
    const other = await service.operation();
    for (const path of ['reports/traceability-events.jsonld', 'fields.geojson', 'deadlines.ics']) {
      expect((await service.get(`${base()}/${path}`, other.tokens.manager)).status).toBe(404);
      expect((await service.get(`${base()}/${path}`)).status).toBe(401);
    }
  });
});

describe('fields on a map, deadlines in a calendar', () => {
  it('fields are GeoJSON with their applications; days bound these', async () => {
    const answer = await service.get(`${base()}/fields.geojson`, op.tokens.recorder);
    expect(answer.headers.get('content-type')).toMatch(/^application\/geo\+json/);
    expect(answer.json).toMatchObject({
      type: 'FeatureCollection',
      features: [
        {
          geometry: { type: 'Polygon' },
          properties: { code: 'North 4', applications: [{ code: 'A-1', batches: ['T-14'] }] },
        },
      ],
    });
    const before = await service.get(`${base()}/fields.geojson?to=2026-06-01`, op.tokens.recorder);
    expect(before.json.features[0].properties.applications).toEqual([]);
    expect((await service.get(`${base()}/fields.geojson?from=2026-13-01`, op.tokens.recorder)).status).toBe(400);
  });

  it('what is due is an iCalendar of the same things as the list', async () => {
    const answer = await service.get(`${base()}/deadlines.ics`, op.tokens.recorder, { 'accept-language': 'es' });
    expect(answer.headers.get('content-type')).toMatch(/^text\/calendar/);
    expect(answer.text).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(answer.text.replaceAll('\r\n ', '')).toContain('NAME:Quillfen Growers: por hacer');
    const { json } = await service.get(`${base()}/deadlines`, op.tokens.recorder);
    expect(json.deadlines.length).toBeGreaterThan(0);
    for (const { findingId } of json.deadlines) expect(answer.text).toContain(`UID:${findingId}`);
  });
});

describe('a file looked at before anything is recorded', () => {
  const text = 'Lot,Material,Quantity,Received\nC-7,CP,40 lb,2026-06-01\nC-8,turf,40 lb,2026-06-01';
  const look = (body: unknown, token = op.tokens.recorder) =>
    service.call('POST', `${base()}/import/preview`, token, body);
  const size = async () =>
    Number((await service.get(`${base()}/log/checkpoint`, op.tokens.manager)).text.split('\n')[1]);

  it('records nothing; its good rows go through the ordinary append, once', async () => {
    const before = await size();
    const { status, json } = await look({ as: 'lots', text });
    expect(status).toBe(200);
    expect(json.counts).toEqual({ good: 1, known: 0, leftOut: 0, wrong: 1 });
    expect(json.rows[1].problems).toEqual([
      { column: 'Material', detail: expect.stringContaining('“turf” is no registered material') },
    ]);
    expect(await size()).toBe(before);
    const { records } = json.rows[0];
    const first = await service.append(op.operationId, op.tokens.recorder, records);
    expect(first.json.results).toEqual([expect.objectContaining({ status: 'recorded' })]);
    expect((await look({ as: 'lots', text })).json.counts).toEqual({ good: 0, known: 1, leftOut: 0, wrong: 1 });
    expect((await service.append(op.operationId, op.tokens.recorder, records)).json.results).toEqual([
      expect.objectContaining({ status: 'duplicate' }),
    ]);
  });

  it('a logger’s readings become the batch’s', async () => {
    const readings = 'time,DO (mg/L),temp (F)\n2026-06-02 10:00,7.9,63\n2026-06-02 10:30,7.7,63';
    const { json } = await look({ as: 'readings', text: readings, batchId });
    expect(json.counts.good).toBe(2);
    await service.append(
      op.operationId,
      op.tokens.recorder,
      json.rows.flatMap((row: { records: unknown[] }) => row.records),
    );
    const batch = await service.get(`${base()}/batches/${batchId}`, op.tokens.recorder);
    expect(batch.json.facts.oxygen.readings.map((each: { mgPerL: number }) => each.mgPerL)).toEqual([7.9, 7.7]);
  });

  it('a person brought in gets a new id every time it is looked at', async () => {
    const ids = await Promise.all(
      [1, 2].map(
        async () => (await look({ as: 'people', text: 'name\nTobin Quay' })).json.rows[0].records[0].data.personId,
      ),
    );
    expect(ids[0]).not.toBe(ids[1]);
    expect(ids[0]).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7/);
  });

  it('what is no request is refused by member; strangers see nothing', async () => {
    const wrong = await look({ as: 'recipes', text });
    expect([wrong.status, wrong.json.errors[0].pointer]).toEqual([422, '/as']);
    expect((await look({ as: 'lots' })).status).toBe(422);
    expect((await look({ as: 'lots', text: 'x'.repeat(1_100_000) })).status).toBe(413);
    const other = await service.operation();
    expect((await look({ as: 'lots', text }, other.tokens.manager)).status).toBe(404);
  });
});
