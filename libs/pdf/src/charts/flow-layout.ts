import type { TraceFlow } from '@furrowmark/reports';

type Column = TraceFlow['columns'][number];
type Node = Column['nodes'][number];
type Edge = TraceFlow['edges'][number];

/**
 * A flow that fits a page: in a column with more nodes than `most`, the ones with the largest quantities stay and the
 * others become one node that says how many they are. Edges are joined, weights add up; the table has them all.
 */
export function fold(flow: TraceFlow, most: number, furtherLabel: (count: number) => string): TraceFlow {
  const weight = new Map<string, number>();
  for (const edge of flow.edges) {
    weight.set(edge.from, (weight.get(edge.from) ?? 0) + edge.weight);
    weight.set(edge.to, (weight.get(edge.to) ?? 0) + edge.weight);
  }
  const renamed = new Map<string, string>();
  const columns = flow.columns.map((column, index): Column => {
    if (column.nodes.length <= most) return column;
    const order = column.nodes.toSorted((a, b) => (weight.get(b.id) ?? 0) - (weight.get(a.id) ?? 0));
    const kept = new Set(order.slice(0, most - 1).map((node) => node.id));
    const further = column.nodes.filter((node) => !kept.has(node.id));
    const id = `further-${index}`;
    for (const node of further) renamed.set(node.id, id);
    const joined: Node = { id, label: furtherLabel(further.length) };
    return { label: column.label, nodes: [...column.nodes.filter((node) => kept.has(node.id)), joined] };
  });
  if (renamed.size === 0) return flow;
  const edges = new Map<string, Edge>();
  for (const edge of flow.edges) {
    const from = renamed.get(edge.from) ?? edge.from;
    const to = renamed.get(edge.to) ?? edge.to;
    const key = `${from}|${to}`;
    const before = edges.get(key);
    edges.set(
      key,
      before === undefined
        ? { from, to, label: from === edge.from && to === edge.to ? edge.label : '', weight: edge.weight }
        : { from, to, label: '', weight: before.weight + edge.weight },
    );
  }
  return { ...flow, columns, edges: [...edges.values()] };
}
