import type { Lot } from '@furrowmark/domain';
import { dayText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { useWidth } from '../../picture/useWidth.ts';
import { placesText, quantityText, unitText } from '../../quantity/text.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { inspectionWords } from '../inspection/words.ts';
import type { Ready } from '../ready.tsx';

/** A lot's movements, each with the balance after it; null once an amount could not be converted. */
export function balances(
  lot: Lot,
): readonly { readonly movement: Lot['movements'][number]; readonly after: number | null }[] {
  let balance: number | null = 0;
  return lot.movements.map((movement) => {
    const amount = movement.amount?.toNumber() ?? null;
    if (amount === null || balance === null) balance = null;
    else if (movement.kind === 'counted') balance = amount;
    else balance += movement.kind === 'received' ? amount : -amount;
    return { movement, after: balance };
  });
}

/** The balance over time: a line of steps, and every movement as a table. */
export function LotBalance({ local, lot }: { readonly local: Ready; readonly lot: Lot }) {
  const w = useWordsOf(inspectionWords);
  const { language } = useExternal(settings);
  const now = useNow();
  const { season } = local;
  const unit = season.unitOfLot(lot.id) ?? lot.quantity.unit;
  const lines = balances(lot);
  const into = (movement: Lot['movements'][number]): string => {
    const { into: where } = movement;
    if (where === undefined) return '';
    const code = {
      batch: season.batch(where.id)?.code,
      application: season.application(where.id)?.code,
      pile: season.pile(where.id)?.started.data.code,
      vessel: season.vessel(where.id)?.registered.code,
      equipment: season.equipment(where.id)?.registered.code,
    }[where.kind];
    return code ?? '';
  };
  return (
    <>
      <BalanceLine lines={lines} now={now} label={w.balanceOf(lot.code)} />
      <div className="table-wrap" tabIndex={0} role="region" aria-label={w.balanceOf(lot.code)}>
        <table>
          <thead>
            <tr>
              <th scope="col">{w.date}</th>
              <th scope="col">{w.what}</th>
              <th scope="col" className="number">
                {w.amount}
              </th>
              <th scope="col" className="number">
                {w.running}
              </th>
            </tr>
          </thead>
          <tbody>
            {lines.map(({ movement, after }) => (
              <tr key={movement.recordId + movement.kind}>
                <td className="day">{dayText(movement.at.at, season.timeZone, language, now)}</td>
                <td>
                  {w[`m_${movement.kind}`]} {into(movement)}
                </td>
                <td className="number">{quantityText(movement.quantity, language)}</td>
                <td className="number">
                  {after === null
                    ? '?'
                    : `${placesText(Math.abs(after) < 1e-9 ? 0 : after, language, 3)} ${unitText(unit, language)}`}
                  {after !== null && after < -1e-9 && <strong className="verdict broken"> ✕</strong>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

interface LineProps {
  readonly lines: ReturnType<typeof balances>;
  readonly now: number;
  readonly label: string;
}

function BalanceLine({ lines, now, label }: LineProps) {
  const [place, width] = useWidth<HTMLDivElement>(600);
  const known = lines.flatMap(({ movement, after }) => (after === null ? [] : [{ at: movement.at.at, after }]));
  const [first] = known;
  if (first === undefined) return null;
  const [high, low] = [
    Math.max(...known.map(({ after }) => after), 0),
    Math.min(...known.map(({ after }) => after), 0),
  ];
  const x = (at: number): number => ((at - first.at) / Math.max(1, now - first.at)) * (width - 4) + 2;
  const y = (value: number): number => 8 + ((high - value) / Math.max(1e-9, high - low)) * 84;
  const path = known.map(
    ({ at, after }, i) =>
      `${i === 0 ? 'M' : 'H'}${x(at).toFixed(1)}${i === 0 ? ` ${y(after).toFixed(1)}` : `V${y(after).toFixed(1)}`}`,
  );
  return (
    <div ref={place}>
      <svg
        width={width}
        height={100}
        viewBox={`0 0 ${String(width)} 100`}
        role="img"
        aria-label={label}
        className="balance-line"
      >
        <line className="zero" x1={0} x2={width} y1={y(0)} y2={y(0)} />
        <path d={`${path.join('')}H${String(width - 2)}`} />
      </svg>
    </div>
  );
}
