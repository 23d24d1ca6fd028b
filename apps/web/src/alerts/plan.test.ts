import { describe, expect, it } from '@jest/globals';
import type { AlertFacts } from './facts.ts';
import { planOf } from './plan.ts';

const minute = 60_000;
const ten = Date.parse('2026-06-03T14:00:00Z'); // 10:00 in New York, in summer time.
const tank = { batchId: 'b', code: 'T-31', vesselCode: 'Tote 2' };
const facts: AlertFacts = {
  zone: 'America/New_York',
  due: [
    { ...tank, findingId: 'f1', ruleId: 'oxygen-checked', at: ten, form: 'oxygen', side: 'by' },
    { ...tank, findingId: 'f2', ruleId: 'brew-minimum', at: ten, form: 'draw', side: 'from' },
  ],
  broken: [{ ...tank, findingId: 'f3', ruleId: 'odour-sound', title: 'Smells sound, or was dumped' }],
  expected: [{ batchId: 'b', forms: ['oxygen', 'draw'] }],
};

describe('the plan of what a phone tells', () => {
  it('tells what must be done by a time some minutes before it, on the operation’s clock', () => {
    const [oxygen] = planOf(facts, 15, 'en', ten - 60 * minute);
    expect(oxygen).toMatchObject({ at: ten - 15 * minute, loud: true, title: 'Tote 2 · T-31' });
    expect(oxygen?.body).toBe('Record oxygen by 10:00');
    expect(oxygen?.path).toBe('/tank/b/record/oxygen');
  });
  it('tells what may be done from a time on at that time, and not before', () => {
    expect(planOf(facts, 15, 'en', ten)[1]).toMatchObject({ at: ten, loud: false });
  });
  it('does not forget what may be done by now, until it is done', () => {
    const before = planOf(facts, 15, 'en', ten - minute);
    const come = { ...facts, due: facts.due.slice(0, 1) };
    expect(planOf(come, 15, 'en', ten + minute, before).map(({ key }) => key)).toContain(`f2 ${String(ten)}`);
    const drawn = { ...come, expected: [{ batchId: 'b', forms: ['oxygen' as const] }] };
    expect(planOf(drawn, 15, 'en', ten + minute, before).map(({ key }) => key)).not.toContain(`f2 ${String(ten)}`);
    // A deadline that was met before its time is not told.
    expect(planOf({ ...come, due: [] }, 15, 'en', ten - 20 * minute, before)).toHaveLength(1);
  });
  it('knows a deadline by its finding and its time, and what is broken by its finding alone', () => {
    expect(planOf(facts, 15, 'en', ten).map(({ key }) => key)).toEqual([
      `f1 ${String(ten)}`,
      `f2 ${String(ten)}`,
      'f3 broken',
    ]);
  });
  it('is told in Spanish to who reads Spanish', () => {
    const bodies = planOf(facts, 15, 'es', ten).map(({ body }) => body);
    expect(bodies[0]).toBe('Anotar el oxígeno hasta las 10:00');
    expect(bodies[2]).toBe('Por revisar: Huele sano, o se tiró');
  });
});
