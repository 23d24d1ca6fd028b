import type { Trace, TraceEdge, TraceRef } from '@furrowmark/domain';
import { describe, expect, it } from '@jest/globals';
import { flowOf, pathsThrough, steps } from './flow.ts';

const lb = (value: number) => ({ value, unit: '[lb_av]' });
const edge = (from: TraceRef, to: TraceRef, recordId: string, pounds?: number): TraceEdge => ({
  ...{ from, to, recordId },
  ...(pounds === undefined ? {} : { quantity: lb(pounds) }),
});
const ref = (kind: TraceRef['kind'], id: string): TraceRef => ({ kind, id });
const [lot, t1, t2] = [ref('lot', 'l'), ref('batch', 't1'), ref('batch', 't2')];
const [d1, d2, d3] = [ref('draw', 'd1'), ref('draw', 'd2'), ref('draw', 'd3')];
const [a1, a2, a3] = [ref('application', 'a1'), ref('application', 'a2'), ref('application', 'a3')];
const [north, south, carrots, h] = [ref('field', 'n'), ref('field', 's'), ref('planting', 'c'), ref('harvest', 'h')];

// Ten pounds: 6 into T-1 (3 + 2 applied on north, 1 left), 4 into T-2 (all on south).
const trace: Trace = {
  root: { ...lot, code: 'L-1' },
  direction: 'forward',
  whole: lb(10),
  nodes: [t1, t2, d1, d2, d3, a1, a2, a3, north, south, carrots, h].map((each) => ({ ...each, code: each.id })),
  edges: [
    edge(lot, t1, 'r1', 6),
    edge(lot, t2, 'r2', 4),
    edge(t1, d1, 'r3', 3),
    edge(d1, a1, 'r3', 3),
    edge(t1, d2, 'r4', 2),
    edge(d2, a2, 'r4', 2),
    edge(t2, d3, 'r5', 4),
    edge(d3, a3, 'r5', 4),
    edge(a1, north, 'r3', 3),
    edge(a1, carrots, 'r3', 3),
    edge(a2, north, 'r4', 2),
    edge(a3, south, 'r5', 4),
    edge(carrots, h, 'r6'),
  ],
  reached: { lots: [], batches: [], fields: [], plantings: [], harvests: [], shipments: [] },
  ends: [],
  unresolved: [],
};
const fieldOf = (id: string): string | undefined => (id === 'c' ? 'n' : undefined);
const flow = flowOf(trace, 900, fieldOf);
const link = (from: string, to: string) => flow.links.find((each) => each.from === from && each.to === to);

describe('the picture of a trace', () => {
  it('shows a load as part of the way and a crop as its ground, counting nothing twice', () => {
    expect(steps(trace, fieldOf).map(({ from, to, quantities }) => [from, to, quantities[0]?.value ?? null])).toEqual([
      ['lot:l', 'batch:t1', 6],
      ['lot:l', 'batch:t2', 4],
      ['batch:t1', 'application:a1', 3],
      ['batch:t1', 'application:a2', 2],
      ['batch:t2', 'application:a3', 4],
      ['application:a1', 'field:n', 3],
      ['application:a2', 'field:n', 2],
      ['application:a3', 'field:s', 4],
      ['field:n', 'harvest:h', null],
    ]);
  });
  it('width is quantity: twice the pounds, twice the width', () => {
    const [four, two] = [link('lot:l', 'batch:t2')?.thick ?? 0, link('batch:t1', 'application:a2')?.thick ?? 0];
    expect(four).toBeCloseTo(2 * two, 9);
    expect(link('field:n', 'harvest:h')?.thick).toBeNull();
  });
  it('goes from left to right', () => {
    const column = (key: string) => flow.nodes.find((each) => each.key === key)?.column;
    expect(['lot:l', 'batch:t1', 'application:a1', 'field:n', 'harvest:h'].map(column)).toEqual([0, 1, 2, 3, 4]);
  });
  it('of a chosen field only what leads there and comes of it stays', () => {
    expect([...pathsThrough(flow.links, 'field:s')].toSorted()).toEqual([
      ...['application:a3', 'batch:t2', 'field:s', 'lot:l'],
    ]);
    expect(pathsThrough(flow.links, 'batch:t1').has('batch:t2')).toBe(false);
    expect(pathsThrough(flow.links, 'batch:t1').has('harvest:h')).toBe(true);
  });
});
