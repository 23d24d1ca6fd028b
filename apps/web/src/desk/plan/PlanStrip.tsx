import { clockText, dayText } from '../../clock/text.ts';
import { offsetAt } from '../../clock/local.ts';
import { timeAxis } from '../../picture/axis.ts';
import { useWidth } from '../../picture/useWidth.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import './plan.css';
import type { Planned } from './planned.ts';
import { planWords } from './words.ts';

interface Props {
  readonly plan: Planned;
  readonly zone: string;
  readonly codeOf: (vesselId: string) => string;
  readonly window: { readonly from: number; readonly to: number };
}

const row = 52;

/** A strip per tank, on one axis of time: fill, first air, brew, apply. */
export function PlanStrip({ plan, zone, codeOf, window: spray }: Props) {
  const w = useWordsOf(planWords);
  const { language } = useExternal(settings);
  const [place, shown] = useWidth<HTMLDivElement>(800);
  const width = Math.max(560, shown);
  const times = plan.batches.flatMap(({ fillFrom, applyBy }) => [Date.parse(fillFrom), Date.parse(applyBy)]);
  const [from, to] = [Math.min(spray.from, ...times), Math.max(spray.to, ...times)];
  const axis = timeAxis(from, to, 4, width - 4, offsetAt(from, zone), 96);
  const vessels = [...new Set(plan.batches.map(({ vesselId }) => vesselId))];
  const height = 40 + vessels.length * row;
  return (
    <div ref={place} className="table-wrap" tabIndex={0} role="region" aria-label={w.strip}>
      <svg
        className="plan-strip"
        width={width}
        height={height}
        viewBox={`0 0 ${String(width)} ${String(height)}`}
        role="img"
        aria-label={`${w.strip}. ${w.stripSays}`}
      >
        <rect
          className="window"
          x={axis.x(spray.from)}
          y={0}
          width={axis.x(spray.to) - axis.x(spray.from)}
          height={height - 34}
        />
        {axis.ticks.map((at) => (
          <g key={at} className="plan-tick">
            <line x1={axis.x(at)} x2={axis.x(at)} y1={0} y2={height - 34} />
            <text x={Math.min(axis.x(at), width - 40)} y={height - 20}>
              {clockText(at, zone)}
            </text>
            <text x={Math.min(axis.x(at), width - 60)} y={height - 5}>
              {dayText(at, zone, language)}
            </text>
          </g>
        ))}
        {plan.batches.map((batch, i) => {
          const y = vessels.indexOf(batch.vesselId) * row + 4;
          const bars = [
            ['fill', batch.fillFrom, batch.fillBy],
            ['air', batch.airOnAt, batch.ingredientsAt],
            ['brew', batch.ingredientsAt, batch.airOffAt],
            ['apply', batch.applyFrom, batch.applyBy],
          ] as const;
          return (
            <g key={`${batch.vesselId}${String(i)}`}>
              <text x={axis.x(Date.parse(batch.fillFrom))} y={y + 14} className="tank-name">
                {codeOf(batch.vesselId)}
              </text>
              {bars.map(([kind, start, end]) => {
                const [x0, x1] = [axis.x(Date.parse(start)), axis.x(Date.parse(end))];
                return (
                  <g key={kind}>
                    <rect
                      className={`bar-${kind}`}
                      x={x0}
                      y={y + 20}
                      width={Math.max(2, x1 - x0)}
                      height={kind === 'apply' ? 22 : 16}
                    />
                    {x1 - x0 > 60 && (
                      <text x={x0 + 6} y={y + 33} className="bar-word">
                        {w[`b_${kind}`]}
                      </text>
                    )}
                  </g>
                );
              })}
            </g>
          );
        })}
      </svg>
    </div>
  );
}
