import type { Quantity, Trace, TraceEdge, TraceNode, TraceRef } from '@furrowmark/domain';

/** A thing in the picture. */
export interface FlowNode extends TraceNode {
  readonly key: string;
  /** From the left, 0 first. */
  readonly column: number;
  readonly x: number;
  readonly y: number;
  readonly height: number;
}

/** What went from one thing to another; `thick` px stands for its quantity, null where none is known or meant. */
export interface FlowLink {
  readonly from: string;
  readonly to: string;
  readonly quantities: readonly Quantity[];
  readonly thick: number | null;
  readonly y0: number;
  readonly y1: number;
}

export interface Flow {
  readonly nodes: readonly FlowNode[];
  readonly links: readonly FlowLink[];
  readonly height: number;
}

export const keyOf = ({ kind, id }: TraceRef): string => `${kind}:${id}`;

interface Step {
  readonly from: string;
  readonly to: string;
  readonly quantities: readonly Quantity[];
}

/**
 * The trace's steps as people see them: a load is part of the way from batch to application, and a planting stands for
 * its field (`fieldOf`). What several records moved between the same two things is one step, summed by unit.
 */
export function steps(trace: Trace, fieldOf: (plantingId: string) => string | undefined): readonly Step[] {
  const batchOf = new Map<string, string>();
  for (const { from, to } of trace.edges) if (to.kind === 'draw') batchOf.set(keyOf(to), keyOf(from));
  const end = (ref: TraceRef): string => {
    if (ref.kind === 'draw') return batchOf.get(keyOf(ref)) ?? keyOf(ref);
    const field = ref.kind === 'planting' ? fieldOf(ref.id) : undefined;
    return field === undefined ? keyOf(ref) : `field:${field}`;
  };
  const merged = new Map<string, { from: string; to: string; quantities: Quantity[] }>();
  const shown = new Set<string>();
  for (const edge of trace.edges) {
    // The way into a load is the way out of it; the same ground is not counted once for itself and once for its crop.
    if (edge.to.kind === 'draw' && trace.edges.some(({ from }) => keyOf(from) === keyOf(edge.to))) continue;
    const [from, to] = [end(edge.from), end(edge.to)];
    if (from === to) continue;
    const key = `${from}>${to}`;
    const once = `${key}|${edge.recordId}|${keyOf(edge.from)}`;
    const again = edge.to.kind === 'planting' && twin(trace, edge, fieldOf);
    if (again || shown.has(once)) continue;
    shown.add(once);
    const step = merged.get(key) ?? { from, to, quantities: [] };
    merged.set(key, step);
    const { quantity } = edge;
    if (quantity === undefined) continue;
    const at = step.quantities.findIndex(({ unit }) => unit === quantity.unit);
    const before = step.quantities[at];
    if (before === undefined) step.quantities.push(quantity);
    else step.quantities[at] = { ...before, value: before.value + quantity.value };
  }
  return [...merged.values()];
}

/** Whether the step onto this planting is told already by a step of the same record onto its ground. */
const twin = (trace: Trace, edge: TraceEdge, fieldOf: (plantingId: string) => string | undefined): boolean =>
  trace.edges.some(
    ({ from, to, recordId }) =>
      recordId === edge.recordId &&
      keyOf(from) === keyOf(edge.from) &&
      to.kind === 'field' &&
      to.id === fieldOf(edge.to.id),
  );

const order: readonly TraceNode['kind'][] = [
  ...(['lot', 'pile', 'batch', 'draw', 'application', 'field', 'planting', 'harvest', 'shipment'] as const),
];
/** px: a bar, the least between two bars (their names stand there), what the fullest column may take for quantities. */
const sizes = { bar: 12, gap: 22, least: 10, full: 240 };

/** Places things in columns from left to right and gives every step the width of its quantity. */
export function flowOf(trace: Trace, width: number, fieldOf: (plantingId: string) => string | undefined): Flow {
  const all = steps(trace, fieldOf);
  const used = new Set([keyOf(trace.root), ...all.flatMap(({ from, to }) => [from, to])]);
  const named = new Map(trace.nodes.map((node) => [keyOf(node), node]));
  named.set(keyOf(trace.root), trace.root);
  const nodes = [...named.values()].filter((node) => used.has(keyOf(node)));
  const outOfPile = new Set(all.filter(({ from }) => from.startsWith('pile:')).map(({ to }) => to));
  const rank = (node: TraceNode): number =>
    node.kind === 'lot' && outOfPile.has(keyOf(node)) ? 1.5 : order.indexOf(node.kind);
  const ranks = [...new Set(nodes.map(rank))].toSorted((a, b) => a - b);
  const columns = ranks.map((each) => nodes.filter((node) => rank(node) === each));

  // A unit's scale: what the fullest column holds of it takes the same height in each unit.
  const totals = new Map<string, number>();
  for (const column of columns) {
    const keys = new Set(column.map(keyOf));
    const sums = new Map<string, number>();
    for (const side of ['from', 'to'] as const)
      for (const step of all)
        if (keys.has(step[side]))
          for (const { unit, value } of step.quantities)
            sums.set(`${side} ${unit}`, (sums.get(`${side} ${unit}`) ?? 0) + value);
    for (const [key, sum] of sums) {
      const unit = key.slice(key.indexOf(' ') + 1);
      totals.set(unit, Math.max(totals.get(unit) ?? 0, sum));
    }
  }
  const thick = ({ quantities }: Step): number | null =>
    quantities.length === 0
      ? null
      : Math.max(
          1.5,
          quantities.reduce((sum, { unit, value }) => sum + (value / (totals.get(unit) ?? 1)) * sizes.full, 0),
        );
  const sum = (side: 'from' | 'to', key: string): number =>
    all.reduce((px, step) => (step[side] === key ? px + (thick(step) ?? 2) : px), 0);

  const step = columns.length > 1 ? (width - 110) / (columns.length - 1) : 0;
  const placed = new Map<string, FlowNode>();
  let height = 0;
  columns.forEach((column, i) => {
    const middle = (node: TraceNode): number => {
      const before = all.flatMap(({ from, to }) => {
        const other = to === keyOf(node) ? placed.get(from) : undefined;
        return other === undefined ? [] : [other.y + other.height / 2];
      });
      return before.length === 0 ? Infinity : before.reduce((a, b) => a + b, 0) / before.length;
    };
    let y = 6;
    for (const node of column.toSorted((a, b) => ascending(middle(a), middle(b)) || a.code.localeCompare(b.code))) {
      const key = keyOf(node);
      const tall = Math.max(sizes.least, sum('from', key), sum('to', key));
      placed.set(key, { ...node, key, column: i, x: i * step, y, height: tall });
      y += tall + sizes.gap;
    }
    height = Math.max(height, y);
  });

  const spent = new Map<string, number>();
  const take = (key: string, side: 'out' | 'in', px: number): number => {
    const node = placed.get(key);
    const before = spent.get(side + key) ?? 0;
    spent.set(side + key, before + px);
    return (node?.y ?? 0) + before + px / 2;
  };
  const sorted = all.toSorted(
    (a, b) =>
      (placed.get(a.to)?.y ?? 0) - (placed.get(b.to)?.y ?? 0) ||
      (placed.get(a.from)?.y ?? 0) - (placed.get(b.from)?.y ?? 0),
  );
  const outs = new Map(sorted.map((each) => [each, take(each.from, 'out', thick(each) ?? 2)]));
  const links = sorted
    .toSorted((a, b) => (placed.get(a.from)?.y ?? 0) - (placed.get(b.from)?.y ?? 0))
    .map((each): FlowLink => ({
      ...each,
      thick: thick(each),
      y0: outs.get(each) ?? 0,
      y1: take(each.to, 'in', thick(each) ?? 2),
    }));
  return { nodes: [...placed.values()], links, height };
}

const ascending = (a: number, b: number): number => (a === b ? 0 : a < b ? -1 : 1);

/** Everything on a path through one thing: what leads to it and what comes of it. */
export function pathsThrough(links: readonly Pick<FlowLink, 'from' | 'to'>[], key: string): ReadonlySet<string> {
  const on = new Set([key]);
  for (const [near, far] of [
    ['from', 'to'],
    ['to', 'from'],
  ] as const) {
    const open = [key];
    const seen = new Set(open);
    for (let next = open.pop(); next !== undefined; next = open.pop())
      for (const link of links)
        if (link[near] === next && !seen.has(link[far])) {
          seen.add(link[far]);
          on.add(link[far]);
          open.push(link[far]);
        }
  }
  return on;
}
