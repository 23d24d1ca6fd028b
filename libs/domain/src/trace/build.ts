import { plain } from '../facts/rounded.ts';
import type { Season } from '../facts/types.ts';
import { nothing } from '../fold/exact.ts';
import type { Decimal } from '../quantity/decimal.ts';
import { named } from './names.ts';
import { Told } from './told.ts';
import type { Reached, Trace, TraceEdge, TraceNode, TraceRef, Unresolved } from './types.ts';

const keyOf = ({ kind, id }: TraceRef): string => `${kind} ${id}`;

/** Collects a trace: nodes and edges once each, quantities added up exactly until they are written. */
export class TraceBuilder {
  readonly #season: Season;
  readonly #root: TraceRef;
  readonly #nodes = new Map<string, TraceNode>();
  readonly #edges = new Told<TraceEdge>();
  readonly #reached = new Map<
    string,
    { ref: TraceRef; amount: Decimal | null; unit: string | null; of: Decimal | null }
  >();
  readonly #unresolved: Unresolved[] = [];

  constructor(season: Season, root: TraceRef) {
    this.#season = season;
    this.#root = root;
    this.node(root);
  }

  /** Notes a thing that the trace names; gives the key that it is kept under. */
  node(ref: TraceRef): string {
    const key = keyOf(ref);
    if (!this.#nodes.has(key)) this.#nodes.set(key, named(this.#season, ref));
    return key;
  }

  has(id: string): boolean {
    return [...this.#nodes.values()].some((node) => node.id === id);
  }

  /** Adds a step; of a second telling of the same step the first stands. Returns whether it is new. */
  edge(edge: TraceEdge): boolean {
    if (this.#edges.find(edge) !== undefined) return false;
    this.node(edge.from);
    this.node(edge.to);
    this.#edges.add(edge);
    return true;
  }

  /** Whether the steps told so far lead from one thing to another. */
  leads(from: TraceRef, to: TraceRef): boolean {
    const after = Map.groupBy(this.#edges.all, (edge) => keyOf(edge.from));
    const ahead = new Set([keyOf(from)]);
    for (const key of ahead) for (const edge of after.get(key) ?? []) ahead.add(keyOf(edge.to));
    return ahead.has(keyOf(to));
  }

  /** Notes that a place was reached, with an amount in a unit and the whole it is part of where these can be told. */
  reach(ref: TraceRef, amount: Decimal | null = null, unit: string | null = null, of: Decimal | null = null): void {
    const key = this.node(ref);
    const before = this.#reached.get(key);
    const sum = amount === null ? (before?.amount ?? null) : amount.plus(before?.amount ?? nothing);
    this.#reached.set(key, {
      ref,
      amount: sum,
      unit: unit ?? before?.unit ?? null,
      of: of ?? before?.of ?? null,
    });
  }

  unresolved(entry: Unresolved): void {
    if (!this.#unresolved.some((each) => each.id === entry.id && each.why === entry.why)) this.#unresolved.push(entry);
  }

  finish(rest: Pick<Trace, 'direction' | 'ends' | 'whole'>): Trace {
    const byKind = Map.groupBy(this.#reached, ([, { ref }]) => ref.kind);
    const of = (kind: TraceRef['kind']): Reached[] =>
      (byKind.get(kind) ?? []).map(([key, { ref, amount, unit, of: whole }]) => {
        const code = this.#nodes.get(key)?.code ?? ref.id;
        return { id: ref.id, code, ...written(amount, unit, whole) };
      });
    return {
      root: this.#nodes.get(keyOf(this.#root)) ?? named(this.#season, this.#root),
      ...rest,
      nodes: [...this.#nodes.values()],
      edges: this.#edges.all,
      reached: {
        lots: of('lot'),
        batches: of('batch'),
        fields: of('field'),
        plantings: of('planting'),
        harvests: of('harvest'),
        shipments: of('shipment'),
      },
      unresolved: this.#unresolved,
    };
  }
}

/** A quantity and its share of the whole, as far as both can be told. 0 stands for what cannot be told. */
export function written(
  amount: Decimal | null,
  unit: string | null,
  of: Decimal | null,
): { quantity?: { value: number; unit: string }; share?: number } {
  if (amount === null || unit === null || amount.isZero()) return {};
  return {
    quantity: { value: plain(amount), unit },
    ...(of === null || of.isZero() ? {} : { share: plain(amount.div(of)) }),
  };
}
