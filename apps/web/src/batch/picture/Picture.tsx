import type { Batch } from '@furrowmark/domain';
import { useId } from 'react';
import { clockText, dayText, spanText } from '../../clock/text.ts';
import { offsetAt } from '../../clock/local.ts';
import { timeAxis, type TimeAxis } from '../../picture/axis.ts';
import { useWidth } from '../../picture/useWidth.ts';
import { quantityText } from '../../quantity/text.ts';
import type { LocalSeason } from '../../season/local.ts';
import { limitsOf, parametersAt, type Limit } from '../../tank/limits.ts';
import { stretchesOf } from '../../tank/model.ts';
import { useTankWords } from '../../tank/useTank.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { batchWords } from '../words.ts';
import { fitting, marksOf, placeDays, placeTexts, reachOf, type Mark } from './marks.ts';
import { OxygenTrace } from './OxygenTrace.tsx';
import './picture.css';
import { Selectable, type Pick } from './Selectable.tsx';

interface Props {
  readonly local: LocalSeason;
  readonly batch: Batch;
  readonly now: number;
  readonly selected: string | null;
  readonly onSelect: (recordId: string) => void;
}

const gutter = 64;
const rows = { axis: 30, water: 44, air: 92, tea: 112, limits: 142, out: 188 } as const;
const lineHeight = 15;
/** Lines of words under what went in and out; what finds no room in so many stands in the table alone. */
const mostLines = 12;

/** The batch on a true axis of time. Each record in it can be chosen; the table below holds the same. */
export function Picture({ local, batch, now, selected, onSelect }: Props) {
  const w = useWordsOf(batchWords);
  const { w: tank, language } = useTankWords();
  const id = useId();
  const [place, width] = useWidth<HTMLDivElement>(900);
  const { engine, season } = local;
  const zone = season.timeZone;
  const limits = limitsOf(engine, season, batch);
  const reach = reachOf(batch, limits, now);
  const axis = timeAxis(reach.from, reach.to, gutter, width - 10, offsetAt(reach.from, zone), width < 600 ? 74 : 86);
  const inside = (at: number): boolean => at >= axis.from && at <= axis.to;
  const shownLimits = limits.filter(({ at }) => inside(at));
  const marks = marksOf(season, batch, {
    quantity: (quantity) => quantityText(quantity, language),
    odour: (odour) => tank[`v_${odour}`],
    loss: (kind) => w[`mark_${kind}`],
  });
  const outMarks = placeMarks(
    axis,
    marks.filter(({ row }) => row !== 'water'),
    mostLines,
  );
  // Oxygen begins below the last line of words, however many things went in at once.
  const lines = Math.max(2, ...outMarks.placed.map(({ line }) => line + 1));
  const oxygenTop = rows.out + 48 + lines * lineHeight;
  const end = oxygenTop + 170;
  const pick = {
    selected,
    onSelect,
    at: (instant: number) => `${dayText(instant, zone, language)} ${clockText(instant, zone)}`,
  };
  const oxygenLimit = parametersAt(engine, season, 'oxygen-minimum', now)?.['minimumMgPerL'] ?? null;
  return (
    <figure className="picture" ref={place}>
      <svg
        width={width}
        height={end}
        viewBox={`0 0 ${String(width)} ${String(end)}`}
        role="group"
        aria-labelledby={`${id}t ${id}d`}
      >
        <title id={`${id}t`}>{`${w.picture}: ${batch.code}`}</title>
        <desc id={`${id}d`}>{w.pictureDesc}</desc>
        <defs>
          <pattern id={`${id}h`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <rect width="6" height="6" className="hold-ground" />
            <rect width="3" height="6" className="ink-hold" />
          </pattern>
        </defs>
        <Grid axis={axis} zone={zone} language={language} bottom={end - 12} />
        {(
          [
            [w.rowWater, rows.water + 14],
            [w.rowAir, rows.air + 9],
            [w.rowTea, rows.tea + 16],
            [w.rowIn, rows.out + 10],
          ] as const
        ).map(([text, y]) => (
          <text key={text} x={0} y={y} className="row-name">
            {text}
          </text>
        ))}
        <Stretches {...{ batch, axis, now }} hatch={`url(#${id}h)`} words={w} />
        <Limits
          {...{ axis }}
          limits={shownLimits}
          text={(limit) => `${tank[`tick_${limit.name}`]} ${clockText(limit.at, zone)}`}
        />
        <Marks
          {...{ axis, pick }}
          {...placeMarks(
            axis,
            marks.filter(({ row }) => row === 'water'),
            1,
          )}
          y={rows.water}
        />
        <Marks {...{ axis, pick }} {...outMarks} y={rows.out - 4} />
        {batch.closed === null && inside(now) && (
          <g className="now">
            <line x1={axis.x(now)} x2={axis.x(now)} y1={rows.axis} y2={end - 8} />
          </g>
        )}
        <OxygenTrace
          batch={batch}
          axis={axis}
          top={oxygenTop}
          bottom={end - 14}
          limit={oxygenLimit}
          words={w}
          pick={pick}
          language={language}
        />
      </svg>
    </figure>
  );
}

function Grid({
  axis,
  zone,
  language,
  bottom,
}: {
  readonly axis: TimeAxis;
  readonly zone: string;
  readonly language: 'en' | 'es';
  readonly bottom: number;
}) {
  return (
    <g className="grid">
      {axis.ticks.map((at) => (
        <g key={at}>
          <line x1={axis.x(at)} x2={axis.x(at)} y1={rows.axis} y2={bottom} />
          {axis.x(at) < axis.x(axis.to) - 20 && (
            <text x={axis.x(at)} y={26} textAnchor="middle">
              {clockText(at, zone)}
            </text>
          )}
        </g>
      ))}
      {placeDays(axis, (at) => dayText(at, zone, language)).map(({ item: { at, text }, x, anchor }) => (
        <text key={at} x={x} y={12} textAnchor={anchor} className="day">
          {text}
        </text>
      ))}
    </g>
  );
}

interface StretchProps {
  readonly batch: Batch;
  readonly axis: TimeAxis;
  readonly now: number;
  readonly hatch: string;
  readonly words: (typeof batchWords)['en'];
}

function Stretches({ batch, axis, now, hatch, words }: StretchProps) {
  return (
    <g>
      {stretchesOf(batch).map(({ kind, from, to }, i) => {
        const end = Math.min(to ?? now, axis.to);
        const [a, b] = [axis.x(from), axis.x(Math.max(end, from))];
        const width = Math.max(b - a, 2);
        if (kind === 'fill')
          return (
            <rect key={i} className="ink-fill" x={a - 1} width={width + 2} y={rows.water + 20} height={4} rx={2} />
          );
        if (kind === 'air') return <rect key={i} className="ink-air" x={a} width={width} y={rows.air} height={11} />;
        if (kind === 'noAir') {
          const text = words.noAir(spanText(end - from));
          return (
            <g key={i}>
              <rect className="ink-noAir" x={a} width={width} y={rows.air + 4} height={3} />
              {width > text.length * 3 && (
                <text x={(a + b) / 2} y={rows.air - 3} textAnchor="middle">
                  {text}
                </text>
              )}
            </g>
          );
        }
        const text = `${words[kind]} ${spanText(end - from)}`;
        return (
          <g key={i}>
            <rect
              className={`ink-${kind}`}
              x={a}
              width={width}
              y={rows.tea}
              height={22}
              rx={3}
              {...(kind === 'hold' ? { style: { fill: hatch } } : {})}
            />
            {width > text.length * 7.5 ? (
              <g>
                {kind === 'hold' && (
                  <rect
                    x={a + 5}
                    y={rows.tea + 3}
                    width={text.length * 7.2 + 8}
                    height={16}
                    rx={3}
                    className="text-ground"
                  />
                )}
                <text x={a + 9} y={rows.tea + 16} className={kind === 'hold' ? 'on-hold' : 'on-brew'}>
                  {text}
                </text>
              </g>
            ) : null}
          </g>
        );
      })}
    </g>
  );
}

/** On a phone only the limits themselves are named; what is advised keeps its dashed line. */
function Limits({
  axis,
  limits,
  text,
}: {
  readonly axis: TimeAxis;
  readonly limits: readonly Limit[];
  readonly text: (limit: Limit) => string;
}) {
  const narrow = axis.x(axis.to) < 560;
  const named = narrow ? limits.filter(({ advised }) => !advised) : limits;
  const placed = placeTexts(
    named,
    ({ at }) => axis.x(at),
    text,
    [axis.x(axis.from), axis.x(axis.to)],
    2,
    ({ advised }) => !advised,
  );
  return (
    <g className="limits">
      {limits.map(({ name, at, advised }) => (
        <line
          key={name}
          x1={axis.x(at)}
          x2={axis.x(at)}
          y1={rows.tea - 5}
          y2={rows.tea + 30}
          className={advised ? 'tick advised' : 'tick'}
        />
      ))}
      {placed.map(({ item, x, anchor, line }) => (
        <text key={item.name} x={x} y={rows.limits + 11 + line * 15} textAnchor={anchor}>
          {text(item)}
        </text>
      ))}
    </g>
  );
}

interface PlacedMarks {
  readonly marks: readonly Mark[];
  readonly text: (mark: Mark) => string;
  readonly placed: ReturnType<typeof placeTexts<Mark>>;
}

function placeMarks(axis: TimeAxis, marks: readonly Mark[], lines: number): PlacedMarks {
  const reach = [axis.x(axis.from), axis.x(axis.to)] as const;
  const named = marks.filter(({ label }) => label !== '');
  const text = (mark: Mark): string => fitting(mark, reach);
  return {
    ...{ marks, text },
    placed: placeTexts(named, ({ at }) => axis.x(at), text, reach, lines),
  };
}

interface MarksProps extends PlacedMarks {
  readonly axis: TimeAxis;
  readonly y: number;
  readonly pick: Pick;
}

function Marks({ axis, marks, placed, text, y, pick }: MarksProps) {
  return (
    <g>
      {marks.map((mark) => (
        <Selectable
          key={mark.recordId + String(mark.at)}
          {...{ pick }}
          recordId={mark.recordId}
          x={axis.x(mark.at)}
          y={y + 8}
          label={`${mark.label} ${pick.at(mark.at)}`}
        >
          <path
            d={shapes[mark.shape]}
            transform={`translate(${String(axis.x(mark.at))} ${String(y + 8)})`}
            className={`mark mark-${mark.shape}`}
          />
        </Selectable>
      ))}
      {placed.map(({ item, x, anchor, line }) => (
        <text
          key={item.recordId + String(item.at)}
          x={x}
          y={y + 30 + line * lineHeight}
          textAnchor={anchor}
          className="mark-label"
        >
          {text(item)}
        </text>
      ))}
    </g>
  );
}

const shapes: Readonly<Record<Mark['shape'], string>> = {
  drop: 'M0-9C4-3 6 0 6 3A6 6 0 0 1-6 3C-6 0-4-3 0-9Z',
  chlorine: 'M0-8L7 0L0 8L-7 0Z',
  added: 'M0 8L-7-6H7Z',
  drawn: 'M-7-4H2V-8L9 0L2 8V4H-7Z',
  dumped: 'M-6-6L6 6M6-6L-6 6',
  checked: 'M-4-4H4V4H-4Z',
};
