import type { Quantity, Trace, TraceRoot } from '@furrowmark/domain';
import { useState } from 'react';
import { dayText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { quantityText, roundText, unitText } from '../../quantity/text.ts';
import { Told } from '../../refusals/Told.tsx';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import type { Ready } from '../ready.tsx';
import { deskWords } from '../words.ts';
import { flowOf, keyOf, pathsThrough } from './flow.ts';
import { FlowPicture } from './FlowPicture.tsx';
import { traceWords } from './words.ts';

type Words = (typeof traceWords)['en'];

interface Props {
  readonly local: Ready;
  readonly root: TraceRoot;
  readonly direction: 'forward' | 'backward';
}

/** A trace one way: its picture, the same as a table, and where everything ended. */
export function TraceView({ local, root, direction }: Props) {
  const w = useWordsOf(traceWords);
  const [chosen, setChosen] = useState<string | null>(null);
  const { engine, season } = local;
  const trace = engine.domain.trace(season, root, direction);
  if (trace === null) return <p>{w.notHere}</p>;
  if (trace.edges.length === 0) return <p>{boughtFrom(local, root, direction, w) ?? w.nothing}</p>;
  const fieldOf = (id: string): string | undefined => season.planting(id)?.started.data.fieldId;
  const { nodes, links } = flowOf(trace, 900, fieldOf);
  const node = nodes.find(({ key }) => key === chosen);
  const on = node === undefined ? null : pathsThrough(links, node.key);
  return (
    <div className="stack">
      <div className="card">
        <h2>{w.picture}</h2>
        <p className="faint small">{w.pictureSays}</p>
        <FlowPicture
          flowAt={(width) => flowOf(trace, width, fieldOf)}
          chosen={node?.key ?? null}
          onChoose={setChosen}
        />
        {node !== undefined && (
          <p className="row" role="status">
            {w.only(node.code)}{' '}
            <button type="button" className="button quiet" onClick={() => setChosen(null)}>
              {w.showAll}
            </button>
          </p>
        )}
      </div>
      <div className="trace-columns">
        <Steps
          local={local}
          trace={trace}
          on={on}
          keyFor={(ref) => (ref.kind === 'planting' ? `field:${fieldOf(ref.id) ?? ''}` : keyOf(ref))}
        />
        <Ends trace={trace} />
      </div>
    </div>
  );
}

/** Where the way back ends: with the supplier, and the lot that it was there. */
function boughtFrom(
  { season }: Ready,
  { kind, id }: TraceRoot,
  direction: Props['direction'],
  w: Words,
): string | undefined {
  const lot = kind === 'lot' && direction === 'backward' ? season.lot(id) : undefined;
  if (lot?.origin.kind !== 'received') return undefined;
  const supplier = season.material(lot.materialId)?.registered.supplier;
  return w.bought(supplier ?? '', lot.origin.record.data.supplierLot);
}

interface StepsProps {
  readonly local: Ready;
  readonly trace: Trace;
  readonly on: ReadonlySet<string> | null;
  readonly keyFor: (ref: Trace['edges'][number]['from']) => string;
}

function Steps({ local, trace, on, keyFor }: StepsProps) {
  const w = useWordsOf(traceWords);
  const desk = useWordsOf(deskWords);
  const { language } = useExternal(settings);
  const now = useNow();
  const { season } = local;
  const codes = new Map([trace.root, ...trace.nodes].map((node) => [keyOf(node), node.code]));
  const batchOf = new Map(
    trace.edges.filter(({ to }) => to.kind === 'draw').map(({ from, to }) => [keyOf(to), keyOf(from)]),
  );
  const counts = (ref: Trace['edges'][number]['from']): boolean =>
    on === null || on.has(keyFor(ref)) || on.has(batchOf.get(keyOf(ref)) ?? '');
  const timeOf = (edge: Trace['edges'][number]): number => season.record(edge.recordId)?.at.at ?? 0;
  // As it happened: a reader follows tea by the clock. Of one moment, in the order in which it went on.
  const shown = trace.edges
    .filter(({ from, to }) => counts(from) && counts(to))
    .toSorted((a, b) => timeOf(a) - timeOf(b));
  const name = (ref: Trace['edges'][number]['from']): string =>
    `${desk[`kind_${ref.kind}`]} ${codes.get(keyOf(ref)) ?? ''}`;
  const into = sums(
    shown
      .filter(({ to }) => to.kind === 'application' || to.kind === 'batch')
      .map(({ to, quantity }) => ({ group: to.kind, quantity })),
  );
  return (
    <div className="card">
      <h2>{w.table}</h2>
      <div className="table-wrap" tabIndex={0} role="region" aria-label={w.table}>
        <table>
          <thead>
            <tr>
              <th scope="col">{w.from}</th>
              <th scope="col">{w.to}</th>
              <th scope="col" className="number">
                {w.quantity}
              </th>
              <th scope="col">{w.on}</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((edge, i) => {
              const at = season.record(edge.recordId)?.at.at;
              return (
                <tr key={`${edge.recordId}-${String(i)}`}>
                  <td>{name(edge.from)}</td>
                  <td>{name(edge.to)}</td>
                  <td className="number">
                    {amount(edge.shipped ?? edge.quantity, language) ?? <span className="faint">{w.noQuantity}</span>}
                  </td>
                  <td className="day">{at === undefined ? '' : dayText(at, season.timeZone, language, now)}</td>
                </tr>
              );
            })}
          </tbody>
          {into.length > 0 && (
            <tfoot>
              {into.map(({ group, unit, value }) => (
                <tr key={group + unit}>
                  <th scope="row" colSpan={2}>
                    {w.sum} → {desk[`kind_${group === 'batch' ? 'batch' : 'application'}`]}
                  </th>
                  <td className="number">{amount({ value, unit }, language)}</td>
                  <td />
                </tr>
              ))}
            </tfoot>
          )}
        </table>
      </div>
    </div>
  );
}

/** Where the whole ended: ground reached, what stayed, was thrown away or went to others; and what is left open. */
function Ends({ trace }: { readonly trace: Trace }) {
  const w = useWordsOf(traceWords);
  const desk = useWordsOf(deskWords);
  const { language } = useExternal(settings);
  const percent = (share: number | undefined): string =>
    share === undefined ? '' : `${roundText(share * 100, language)} %`;
  const back = trace.direction === 'backward';
  const { reached } = trace;
  const places = back
    ? [
        ...reached.batches.map((each) => ({ kind: 'batch' as const, ...each })),
        ...reached.lots.map((each) => ({ kind: 'lot' as const, ...each })),
      ]
    : reached.fields.map((each) => ({ kind: 'field' as const, ...each }));
  const further = back
    ? []
    : [
        ...reached.harvests.map((each) => ({ kind: 'harvest' as const, ...each })),
        ...reached.shipments.map((each) => ({ kind: 'shipment' as const, ...each })),
      ];
  const codes = new Map([trace.root, ...trace.nodes].map((node) => [keyOf(node), node.code]));
  const parts = [...places, ...trace.ends];
  const total = sums(parts.map(({ quantity }) => ({ group: '', quantity })));
  const { whole } = trace;
  return (
    <div className="card">
      <h2>{back ? w.reachedBack : w.reached}</h2>
      <div className="table-wrap" tabIndex={0} role="region" aria-label={back ? w.reachedBack : w.reached}>
        <table>
          <thead>
            <tr>
              <th scope="col">{w.place}</th>
              <th scope="col" className="number">
                {w.quantity}
              </th>
              <th scope="col" className="number">
                {w.share}
              </th>
            </tr>
          </thead>
          <tbody>
            {[...places, ...further].map(({ kind, id, code, quantity, share }) => (
              <tr key={kind + id}>
                <th scope="row">
                  {desk[`kind_${kind}`]} {code}
                </th>
                <td className="number">{amount(quantity, language) ?? ''}</td>
                <td className="number">{percent(share)}</td>
              </tr>
            ))}
            {trace.ends.map((end, i) => (
              <tr key={`${end.kind}${String(i)}`}>
                <th scope="row">
                  {codes.get(keyOf(end.at)) ?? ''} <Told text={end.why} />
                </th>
                <td className="number">{amount(end.quantity, language) ?? ''}</td>
                <td className="number">{percent(end.share)}</td>
              </tr>
            ))}
          </tbody>
          {!back && whole !== undefined && (
            <tfoot>
              {total.map(({ unit, value }) => (
                <tr key={unit}>
                  <th scope="row">{w.sum}</th>
                  <td className="number">{amount({ value, unit }, language)}</td>
                  <td className="number">
                    {unit === whole.unit && whole.value > 0 ? percent(value / whole.value) : ''}
                  </td>
                </tr>
              ))}
              <tr>
                <th scope="row">{w.whole}</th>
                <td className="number">{amount(whole, language)}</td>
                <td className="number">{percent(1)}</td>
              </tr>
            </tfoot>
          )}
        </table>
      </div>
      {trace.unresolved.length > 0 && (
        <>
          <h3>{w.unresolved}</h3>
          <ul>
            {trace.unresolved.map(({ id, why }, i) => (
              <li key={id + String(i)}>
                ? <Told text={why} />
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

/** `0.667 gal`, rounded to what people read; null where there is none. */
function amount(quantity: Quantity | undefined, language: 'en' | 'es'): string | null {
  if (quantity === undefined) return null;
  if (quantity.qualifier !== undefined) return quantityText(quantity, language);
  return `${roundText(quantity.value, language, 4)} ${unitText(quantity.unit, language)}`;
}

/** Sums by group and unit. */
function sums(parts: readonly { readonly group: string; readonly quantity: Quantity | undefined }[]) {
  const found = new Map<string, { group: string; unit: string; value: number }>();
  for (const { group, quantity } of parts) {
    if (quantity === undefined) continue;
    const key = `${group} ${quantity.unit}`;
    const before = found.get(key);
    if (before === undefined) found.set(key, { group, unit: quantity.unit, value: quantity.value });
    else before.value += quantity.value;
  }
  return [...found.values()];
}
