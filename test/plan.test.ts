import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { v7 } from 'uuid';
import { TestService } from './support/service.ts';
import { farm } from './web/farm.ts';

let service: TestService;
beforeAll(async () => {
  service = await TestService.start();
}, 120_000);
afterAll(() => service.close(), 30_000);

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
