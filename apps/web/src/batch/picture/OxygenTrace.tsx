import type { Batch } from '@furrowmark/domain';
import type { TimeAxis } from '../../picture/axis.ts';
import { numberText, roundText } from '../../quantity/text.ts';
import type { Language } from '../../words/catalogue.ts';
import type { batchWords } from '../words.ts';
import { placeTexts } from './marks.ts';
import { Selectable, type Pick } from './Selectable.tsx';

interface Props {
  readonly batch: Batch;
  readonly axis: TimeAxis;
  readonly top: number;
  readonly bottom: number;
  readonly limit: number | null;
  readonly words: (typeof batchWords)['en'];
  readonly pick: Pick;
  readonly language: Language;
}

/** Dissolved oxygen through the brew, with its limit, and what the water could hold at each reading's temperature. */
export function OxygenTrace({ batch, axis, top, bottom, limit, words, pick, language }: Props) {
  const readings = batch.oxygen.filter(({ at }) => at.at >= axis.from && at.at <= axis.to);
  const held = readings.flatMap(({ at, mgPerL, saturationPercent }) =>
    saturationPercent === null || saturationPercent <= 0
      ? []
      : [{ at: at.at, value: (mgPerL / saturationPercent) * 100 }],
  );
  const most = Math.ceil(
    Math.max(10, ...readings.map(({ mgPerL }) => mgPerL), ...held.map(({ value }) => value)) + 0.5,
  );
  const y = (value: number): number => bottom - ((bottom - top) * Math.min(value, most)) / most;
  const line = (points: readonly { at: number; value: number }[]): string =>
    points.map(({ at, value }, i) => `${i === 0 ? 'M' : 'L'}${axis.x(at).toFixed(1)} ${y(value).toFixed(1)}`).join('');
  const [x0, x1] = [axis.x(axis.from), axis.x(axis.to)];
  const marks = [0, 2, 4, 6, 8, 10, 12, 14].filter((value) => value <= most);
  return (
    <g className="oxygen">
      <text x={0} y={top - 10} className="row-name">
        {words.rowOxygen}
      </text>
      {marks.map((value) => (
        <g key={value}>
          <line x1={x0} x2={x1} y1={y(value)} y2={y(value)} className="level" />
          <text x={x0 - 8} y={y(value) + 4} textAnchor="end">
            {value}
          </text>
        </g>
      ))}
      {limit !== null && (
        <g className="oxygen-limit">
          <rect x={x0} width={x1 - x0} y={y(limit)} height={Math.max(0, bottom - y(limit))} className="below" />
          <line x1={x0} x2={x1} y1={y(limit)} y2={y(limit)} />
          <text x={x1} y={y(limit) + 15} textAnchor="end">
            {words.limit} {numberText(limit, language)}
          </text>
        </g>
      )}
      {held.length > 1 && <path d={line(held)} className="saturation" />}
      {held.length > 0 && (
        <>
          <text x={x1 - 30} y={top - 10} textAnchor="end" className="saturation-name">
            {words.saturation}
          </text>
          <line x1={x1 - 24} x2={x1} y1={top - 14} y2={top - 14} className="saturation" />
        </>
      )}
      <path d={line(readings.map(({ at, mgPerL }) => ({ at: at.at, value: mgPerL })))} className="trace" />
      {readings.map(({ recordId, at, mgPerL }) => (
        <Selectable
          key={recordId}
          {...{ recordId, pick }}
          x={axis.x(at.at)}
          y={y(mgPerL)}
          label={`${roundText(mgPerL, language)} mg/L ${pick.at(at.at)}`}
        >
          <circle cx={axis.x(at.at)} cy={y(mgPerL)} r={5} className="reading" />
        </Selectable>
      ))}
      {placeTexts(
        readings,
        ({ at }) => axis.x(at.at),
        ({ mgPerL }) => roundText(mgPerL, language),
        [x0, x1],
        1,
      ).map(({ item, x, anchor }) => (
        <text key={item.recordId} x={x} y={y(item.mgPerL) - 11} textAnchor={anchor}>
          {roundText(item.mgPerL, language)}
        </text>
      ))}
    </g>
  );
}
