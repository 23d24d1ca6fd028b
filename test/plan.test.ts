import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { v7 } from 'uuid';
import { TestService } from './support/service.ts';
import { farm } from './web/farm.ts';

let service: TestService;
beforeAll(async () => {
  service = await TestService.start();
}, 120_000);
afterAll(() => service.close(), 30_000);

describe('a plan with a sprayer', () => {
  const ask = async (sprayer: object | undefined) => {
    const op = await farm(service);
    const hours = (n: number) => new Date(Date.now() + n * 3_600_000).toISOString();
    const body = {
      spray: { from: hours(72), to: hours(76) },
      targets: [{ area: { value: 4, unit: '[acr_us]' }, rate: { value: 25, unit: '[gal_us]/[acr_us]' } }],
      ...{ vessels: [op.ids.tote2], sprayer },
    };
    return service.call('POST', `/api/v1/operations/${op.operationId}/plan`, op.tokens.manager, body);
  };
  const gal = (value: number) => ({ value, unit: '[gal_us]' });

  // By arithmetic: 100 gal in loads of 30 are three full ones and one of 10; four hours of 20 gal are 80 gal.
  it('counts its loads, and says what it cannot put out in the window', async () => {
    const { status, json } = await ask({ tank: gal(30), perHour: { value: 20, unit: '[gal_us]/h' } });
    expect(status).toBe(200);
    expect(json.warnings.join(' ')).toContain('The sprayer puts out at most 80 gal in this window.');
    expect(json.batches[0].loads).toBe(3);
    const { json: unbounded } = await ask({ tank: gal(30) });
    expect(unbounded.batches[0].loads).toBe(4);
  });
  it('does not count loads of a tank that it is not told', async () => {
    const { json } = await ask(undefined);
    expect(json.batches[0].loads).toBeNull();
    expect(json.warnings.join(' ')).toContain('loads');
  });
  it('refuses what is no volume', async () => {
    const { status, json } = await ask({ tank: { value: 30, unit: 'kg' } });
    expect([status, json.errors[0].pointer]).toEqual([422, '/sprayer/tank/unit']);
  });
});

describe('a plan for a recipe that is written for ten pails', () => {
  const ask = async (pail: object | null) => {
    const op = await farm(service);
    const [recipeId, measureId] = [v7(), v7()];
    const record = (type: string, data: object) => ({
      ...{ id: v7(), type, version: 1, occurredAt: '2026-04-01T08:00:00-05:00', data },
    });
    const written = [
      ...(pail === null ? [] : [record('measure.registered', { measureId, name: 'pail', ...pail })]),
      record('recipe.published', {
        ...{ recipeId, edition: 1, code: 'Pail tea', kind: 'aeratedTea' },
        basisVolume: { value: 10, unit: '{measure}', measureId },
        ingredients: [{ materialId: op.ids.worm, amount: { value: 2, unit: '[lb_av]' } }],
      }),
    ];
    const { json: added } = await service.append(op.operationId, op.tokens.manager, written);
    expect(added.results.map(({ status }: { status: string }) => status)).toEqual(written.map(() => 'recorded'));
    const hours = (n: number) => new Date(Date.now() + n * 3_600_000).toISOString();
    const { status, json } = await service.call(
      'POST',
      `/api/v1/operations/${op.operationId}/plan`,
      op.tokens.manager,
      {
        spray: { from: hours(72), to: hours(76) },
        targets: [{ area: { value: 4, unit: '[acr_us]' }, rate: { value: 25, unit: '[gal_us]/[acr_us]' } }],
        vessels: [op.ids.tote2],
        recipeId,
      },
    );
    expect(status).toBe(200);
    return json;
  };

  it('takes what a pail holds: for 100 gal with a pail of 5 gal twice the 2 lb', async () => {
    const plan = await ask({ equals: { value: 5, unit: '[gal_us]' }, weighedOn: '2026-04-01' });
    expect(plan.batches).toHaveLength(1);
    expect(plan.batches[0].volume.value).toBeCloseTo(100, 6);
    expect(plan.batches[0].ingredients[0].quantity).toEqual({ value: 4, unit: '[lb_av]' });
  });
  it('says so where nobody has written down what it holds', async () => {
    const plan = await ask(null);
    expect(plan.batches[0].ingredients).toEqual([]);
    expect(plan.warnings.join(' ')).toContain('Recipe Pail tea: the volume that it is for is');
  });
});
