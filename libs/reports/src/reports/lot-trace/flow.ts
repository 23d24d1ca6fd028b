import type { Trace, TraceKind } from '@furrowmark/domain';
import type { TraceFlow } from '../../content.ts';
import { brief, unitName, type Telling } from '../../telling/index.ts';
import { traceWords } from './words.ts';

/** The picture's columns, left to right; draws, applications and plantings are in the tables, not in the picture. */
const columnOrder = ['lot', 'pile', 'batch', 'field', 'harvest', 'shipment'] as const;
type Column = (typeof columnOrder)[number];
const columnOf: Readonly<Partial<Record<TraceKind, Column>>> = {
  lot: 'lot',
  pile: 'pile',
  batch: 'batch',
  field: 'field',
  harvest: 'harvest',
  shipment: 'shipment',
};

interface Step {
  readonly to: string;
  readonly weight: number;
}

/**
 * From each shown thing to the next shown things, across whatever lies between: of what leaves a draw or an application,
 * each of those whose tea came into it has its part.
 */
function shownSteps(
  { season }: Telling,
  trace: Trace,
): { readonly from: string; readonly to: string; readonly weight: number }[] {
  const kindOf = new Map(trace.nodes.map(({ id, kind }) => [id, kind]));
  const shown = (id: string): boolean => columnOf[kindOf.get(id) ?? 'draw'] !== undefined;
  const out = new Map<string, Step[]>();
  const into = new Map<string, number>();
  for (const { from, to, quantity } of trace.edges) {
    // What grew there stands on the field: the same tea must not count twice.
    if (from.kind === 'planting' || to.kind === 'planting') continue;
    const steps = out.get(from.id) ?? [];
    out.set(from.id, [...steps, { to: to.id, weight: quantity?.value ?? 0 }]);
    into.set(to.id, (into.get(to.id) ?? 0) + (quantity?.value ?? 0));
  }
  const sums = new Map<string, { from: string; to: string; weight: number }>();
  const follow = (origin: string, at: string, weight: number, seen: ReadonlySet<string>): void => {
    const steps = (out.get(at) ?? []).filter(({ to }) => !seen.has(to));
    const whole = into.get(at) ?? 0;
    for (const step of steps) {
      // From a shown thing the step's own weight counts; through a hidden one, its part of what came in.
      const part = at === origin ? step.weight : whole === 0 ? 0 : (weight * step.weight) / whole;
      if (!shown(step.to)) {
        follow(origin, step.to, part, new Set([...seen, step.to]));
        continue;
      }
      const key = `${origin}|${step.to}`;
      const before = sums.get(key);
      sums.set(key, { from: origin, to: step.to, weight: (before?.weight ?? 0) + part });
    }
  };
  for (const { id } of trace.nodes) if (shown(id)) follow(id, id, 0, new Set([id]));
  const fields = trace.reached.fields.map(({ id }) => id);
  for (const { id } of trace.reached.harvests) {
    const fieldId = season.harvest(id)?.fieldId;
    if (fieldId === undefined) continue;
    const ground = season.sameGround(fieldId);
    for (const from of fields.filter((field) => ground.has(field)))
      sums.set(`${from}|${id}`, { from, to: id, weight: 0 });
  }
  return [...sums.values()];
}

/** Left to right, width by quantity. null where the lot went nowhere. */
export function flowOf(telling: Telling, trace: Trace): TraceFlow | null {
  const own = traceWords[telling.language];
  const steps = shownSteps(telling, trace);
  if (steps.length === 0) return null;
  const { season } = telling;
  const linked = new Set(steps.flatMap(({ from, to }) => [from, to]));
  const detailOf = (id: string): string | undefined => {
    const lot = season.lot(id);
    if (lot !== undefined) return season.material(lot.materialId)?.registered.name;
    const harvest = season.harvest(id);
    return harvest === undefined
      ? undefined
      : `${brief(harvest.record.data.quantity.value, 1)} ${unitName(harvest.record.data.quantity.unit)}`;
  };
  const rootFirst = (a: { id: string }, b: { id: string }): number =>
    Number(b.id === trace.root.id) - Number(a.id === trace.root.id);
  const unit = trace.whole === undefined ? '' : unitName(trace.whole.unit);
  const amount = (weight: number): string => (weight > 0 && unit !== '' ? `${brief(weight, 2)} ${unit}` : '');
  const bands = Map.groupBy(
    steps.filter(({ weight }) => weight > 0),
    ({ to }) => to,
  );
  // Where several bands meet, one figure beside them would be read as all of it: the box says the sum instead.
  const meetIn = (id: string): boolean => (bands.get(id) ?? []).length > 1;
  const sumIn = (id: string): string => amount((bands.get(id) ?? []).reduce((sum, { weight }) => sum + weight, 0));
  const columns = columnOrder.flatMap((column) => {
    const nodes = trace.nodes
      .filter(({ id, kind }) => columnOf[kind] === column && linked.has(id))
      .toSorted(rootFirst)
      .map(({ id, code }) => {
        const detail = [detailOf(id) ?? '', meetIn(id) ? sumIn(id) : ''].filter((part) => part !== '').join(', ');
        return { id, label: code, ...(detail === '' ? {} : { detail }) };
      });
    return nodes.length === 0 ? [] : [{ label: own.columns[column], nodes }];
  });
  const position = new Map(columns.flatMap(({ nodes }, index) => nodes.map(({ id }) => [id, index] as const)));
  const { batches, fields, harvests } = trace.reached;
  return {
    kind: 'traceFlow',
    title: own.flow,
    description: own.flowSays(batches.length, fields.length, harvests.length),
    columns,
    // A step back or within a column (tea carried over to another batch) is left to the table.
    edges: steps
      .filter(({ from, to }) => (position.get(from) ?? 0) < (position.get(to) ?? 0))
      .map(({ from, to, weight }) => ({
        from,
        to,
        weight,
        label: meetIn(to) ? '' : amount(weight),
      })),
  };
}
