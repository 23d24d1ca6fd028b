import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { Deadlines, KeptOutcomes, OperationScope, RuleUpgrades } from '@furrowmark/api';
import { TestService, type TestOperation } from './support/service.ts';

const hour = 3_600_000;
const start = Date.parse('2026-06-02T10:00:00Z');
let now = start;
let service: TestService;
let op: TestOperation;
const batchId = randomUUID();
const base = () => `/api/v1/operations/${op.operationId}`;

const record = (type: string, at: number, data: object) => ({
  id: randomUUID(),
  type,
  version: 1,
  occurredAt: new Date(at).toISOString(),
  data,
});
const append = async (...records: object[]) => {
  const answer = await service.append(op.operationId, op.tokens.manager, records);
  expect(answer.json.results.map((each: { status: string }) => each.status)).toEqual(records.map(() => 'recorded'));
  return answer.json.results;
};

beforeAll(async () => {
  service = await TestService.start({ clock: { now: () => now } });
  op = await service.operation();
  const [sourceId, vesselId, lotId, materialId] = [randomUUID(), randomUUID(), randomUUID(), randomUUID()];
  const gal = (value: number) => ({ value, unit: '[gal_us]' });
  await append(
    record('source.registered', start, { sourceId, code: 'W1', kind: 'well', disinfectant: 'none' }),
    record('vessel.registered', start, {
      vesselId,
      code: 'Tote 2',
      totalVolume: gal(330),
      workingVolume: gal(300),
      previousContents: 'none',
    }),
    record('material.registered', start, {
      materialId,
      code: 'CP',
      name: 'compost',
      kind: 'compost',
      animalOrigin: 'no',
      microbialFood: 'no',
    }),
    record('lot.received', start, {
      lotId,
      code: 'C-1',
      materialId,
      supplierLot: '1',
      quantity: { value: 50, unit: '[lb_av]' },
    }),
    record('batch.opened', start, { batchId, code: 'T-14', kind: 'aeratedTea', vesselId }),
    record('batch.filled', start, { batchId, sourceId, volume: gal(250) }),
    record('batch.airStarted', start, { batchId }),
    record('batch.ingredientAdded', start, { batchId, lotId, quantity: { value: 5, unit: '[lb_av]' } }),
    record('batch.oxygenMeasured', start, { batchId, dissolvedOxygen: { value: 7, unit: 'mg/L' } }),
  );
}, 60_000);
afterAll(() => service.close());

describe('deadlines', () => {
  it('stand where everybody can read them: the next oxygen reading 12 h after the last', async () => {
    const { json } = await service.get(`${base()}/deadlines`, op.tokens.recorder);
    expect(json.deadlines).toContainEqual(
      expect.objectContaining({
        ruleId: 'oxygen-checked',
        about: expect.objectContaining({ kind: 'batch', id: batchId, code: 'T-14' }),
        dueAt: new Date(start + 12 * hour).toISOString(),
        alertedAt: null,
      }),
    );
  });

  it('are announced once when their time has come, and a reading that was taken is not announced any more', async () => {
    const deadlines = service.service.context.get(Deadlines);
    const due = async () => (await deadlines.alertsDue(op.operationId)).map(({ ruleId }) => ruleId);
    now = start + 11 * hour;
    expect(await due()).not.toContain('oxygen-checked');
    now = start + 12 * hour;
    expect(await due()).toContain('oxygen-checked');
    expect(await due()).toEqual([]);
    now = start + 13 * hour;
    expect((await due()).filter((ruleId) => ruleId === 'oxygen-checked')).toEqual([]);
    await append(record('batch.oxygenMeasured', now, { batchId, dissolvedOxygen: { value: 7, unit: 'mg/L' } }));
    const { json } = await service.get(`${base()}/deadlines`, op.tokens.recorder);
    const next = json.deadlines.filter((each: { ruleId: string }) => each.ruleId === 'oxygen-checked');
    expect(next).toEqual([
      expect.objectContaining({
        dueAt: new Date(start + 25 * hour).toISOString(),
        alertedAt: null,
      }),
    ]);
    now = start + 25 * hour;
    expect(await due()).toContain('oxygen-checked');
  });

  it('missed while nobody looked, are told all the same, once; not what was done in time', async () => {
    const deadlines = service.service.context.get(Deadlines);
    // Read at 25 h, so the next one is due at 37 h; at 43 h the limit of 16 h has passed as well.
    await append(record('batch.oxygenMeasured', now, { batchId, dissolvedOxygen: { value: 7, unit: 'mg/L' } }));
    await service.get(`${base()}/deadlines`, op.tokens.recorder);
    now = start + 43 * hour;
    const told = await deadlines.alertsDue(op.operationId);
    expect(told.filter(({ ruleId }) => ruleId === 'oxygen-checked').map(({ dueAt }) => dueAt)).toEqual([
      new Date(start + 37 * hour).toISOString(),
    ]);
  });

  it('of two that ask at the same time only one is told', async () => {
    const deadlines = service.service.context.get(Deadlines);
    now = start + 48 * hour;
    const [a, b] = await Promise.all([deadlines.alertsDue(op.operationId), deadlines.alertsDue(op.operationId)]);
    const told = [...a, ...b].map(({ findingId, dueAt }) => `${findingId} ${dueAt}`);
    expect(told.length).toBeGreaterThan(0);
    expect(new Set(told).size).toBe(told.length);
  });

  it('are written a moment after an append, though nobody asks', async () => {
    const at = now;
    const lastReading = record('batch.oxygenMeasured', at, { batchId, dissolvedOxygen: { value: 7, unit: 'mg/L' } });
    await append(lastReading);
    await new Promise((done) => setTimeout(done, 3500));
    const rows: unknown = await service.service.context
      .get(OperationScope)
      .run(op.operationId, (manager) =>
        manager.query(`SELECT rule_id FROM deadline WHERE standing AND due_at = $1`, [new Date(at + 12 * hour)]),
      );
    expect(rows).toContainEqual({ rule_id: 'oxygen-checked' });
  });
});

describe('outcomes kept for the next version of the program', () => {
  it('differ in nothing under the same rules, whatever was recorded since', async () => {
    const kept = service.service.context.get(KeptOutcomes);
    expect(await kept.compare(op.operationId)).toBeNull();
    const count = await kept.keep(op.operationId);
    expect(count).toBeGreaterThan(5);
    await append(record('batch.oxygenMeasured', now, { batchId, dissolvedOxygen: { value: 3, unit: 'mg/L' } }));
    expect(await kept.compare(op.operationId)).toMatchObject({ outcomes: count, differences: [] });
  });

  it('name the outcomes and the revisions where the rules were others', async () => {
    const kept = service.service.context.get(KeptOutcomes);
    await service.service.context.get(OperationScope).run(op.operationId, (manager) =>
      manager.query(
        `UPDATE outcomes_kept SET outcomes = jsonb_set(outcomes, '{oxygen-minimum}',
           jsonb_build_object('revision', 0, 'verdicts',
             jsonb_build_object('unknown', jsonb_path_query_array(outcomes, '$."oxygen-minimum".verdicts.*[*]'))))`,
      ),
    );
    const compared = await kept.compare(op.operationId);
    expect(compared?.differences).toEqual([
      expect.objectContaining({
        ruleId: 'oxygen-minimum',
        revision: { before: 0, after: expect.any(Number) },
        about: { kind: 'batch', id: batchId, code: 'T-14' },
        before: 'unknown',
      }),
    ]);
  });
});

describe('an upgrade to other rules', () => {
  const upgrades = async (token: string) => service.get(`${base()}/rule-book/upgrades`, token);

  it('writes down once what it judges otherwise, where the manager and the command find it', async () => {
    const context = service.service.context;
    const watch = context.get(RuleUpgrades);
    await watch.look();
    expect((await upgrades(op.tokens.manager)).json).toEqual({ upgrades: [] });
    // As if the program before had judged by revision 0 of one rule, and had known a rule that is gone.
    await context.get(KeptOutcomes).keep(op.operationId);
    await context.get(OperationScope).run(op.operationId, (manager) =>
      manager.query(
        `UPDATE outcomes_kept SET
           revisions = jsonb_set(revisions, '{oxygen-minimum}', '0') || '{"foam-none": 3}',
           outcomes = jsonb_set(outcomes, '{oxygen-minimum}', jsonb_build_object('revision', 0, 'verdicts',
             jsonb_build_object('unknown', jsonb_path_query_array(outcomes, '$."oxygen-minimum".verdicts.*[*]'))))`,
      ),
    );
    // Two processes that start at the same time.
    await Promise.all([watch.look(), watch.look(), context.get(KeptOutcomes).follow(op.operationId)]);
    await watch.look();
    const { json } = await upgrades(op.tokens.manager);
    expect(json.upgrades).toEqual([
      expect.objectContaining({
        foundAt: new Date(now).toISOString(),
        revisions: {
          'oxygen-minimum': { before: 0, after: expect.any(Number) },
          'foam-none': { before: 3, after: null },
        },
        differences: [
          expect.objectContaining({
            ruleId: 'oxygen-minimum',
            about: { kind: 'batch', id: batchId, code: 'T-14' },
            before: 'unknown',
          }),
        ],
      }),
    ]);
    // What is kept is of the rules of now again: the next upgrade compares with it.
    expect(await context.get(KeptOutcomes).compare(op.operationId)).toMatchObject({ differences: [] });
  });

  it("is no recorder's to read, and nobody changes what was written down", async () => {
    expect((await upgrades(op.tokens.recorder)).status).toBe(403);
    await expect(
      service.service.context
        .get(OperationScope)
        .run(op.operationId, (manager) => manager.query(`UPDATE rule_upgrade SET differences = '[]'`)),
    ).rejects.toThrow(/append-only|permission denied/);
  });

  it('outcomes kept before revisions were written down are compared by the revisions that they name', async () => {
    const context = service.service.context;
    await context
      .get(OperationScope)
      .run(op.operationId, (manager) => manager.query(`UPDATE outcomes_kept SET revisions = '{}'`));
    expect(await context.get(KeptOutcomes).follow(op.operationId)).toBe('same');
    now += 25 * hour;
    await append(record('batch.checked', now, { batchId, odour: 'earthy' }));
    expect(await context.get(KeptOutcomes).follow(op.operationId)).toBe('kept');
    expect(await context.get(KeptOutcomes).follow(op.operationId)).toBe('same');
  });
});

describe('signatures on a batch', () => {
  it('stand in its view with what was amended since; asked for, with the outcomes that were signed', async () => {
    const [{ seq: throughSeq }] = await append(record('batch.checked', now, { batchId, odour: 'earthy' }));
    const review = record('batch.reviewed', now, {
      batchId,
      throughSeq,
      meaning: 'reviewed',
      statement: 'I have read these records.',
    });
    await append(review);
    const late = record('batch.oxygenMeasured', start + hour, { batchId, dissolvedOxygen: { value: 2, unit: 'mg/L' } });
    await append(late);
    const plain = await service.get(`${base()}/batches/${batchId}`, op.tokens.reviewer);
    expect(plain.json.reviews).toEqual([
      expect.objectContaining({ recordId: review.id, throughSeq, amendedSince: [late.id], meaning: 'reviewed' }),
    ]);
    const signed = await service.get(`${base()}/batches/${batchId}?asSigned=true`, op.tokens.reviewer);
    const readings = (outcomes: { ruleId: string; figures: { value: number }[] }[]) =>
      outcomes
        .filter(({ ruleId }) => ruleId === 'oxygen-minimum')
        .flatMap(({ figures }) => figures.map((f) => f.value));
    expect(readings(signed.json.outcomes)).toContain(2);
    expect(readings(signed.json.reviews[0].outcomes)).not.toContain(2);
    expect(readings(signed.json.reviews[0].outcomes)).toContain(3);
  });
});

describe('the starter book', () => {
  it('can be read and adopted as it is; then what it leaves out is listed', async () => {
    const before = await service.get(`${base()}/rule-book/starter`, op.tokens.manager);
    expect(before.json.ruleIds).toHaveLength(5);
    expect(before.json.notSwitchedOn).toEqual([]);
    await append(
      record('ruleBook.adopted', now, {
        effectiveFrom: new Date(now).toISOString(),
        entries: before.json.entries,
        reason: 'to begin with',
        approvedBy: randomUUID(),
      }),
    );
    const after = await service.get(`${base()}/rule-book/starter`, op.tokens.inspector);
    expect(after.json.notSwitchedOn).toContainEqual({
      ruleId: 'harvest-interval',
      title: expect.any(String),
      why: 'switched off',
    });
    expect(after.json.notSwitchedOn).toHaveLength(before.json.entries.length - 5);
  });
});
