import { useId } from 'react';
import { clockText } from '../clock/text.ts';
import { offsetAt } from '../clock/local.ts';
import { timeAxis } from '../picture/axis.ts';
import { useWidth } from '../picture/useWidth.ts';
import type { Limit } from './limits.ts';
import type { Tank } from './model.ts';
import { useTankWords } from './useTank.ts';

const height = 62;
const hour = 3_600_000;

/** The brew as a ribbon of time: what has been, now, and the limits that are still to come, to scale. */
export function TankRibbon({ tank, now, zone }: { readonly tank: Tank; readonly now: number; readonly zone: string }) {
  const { w } = useTankWords();
  const [place, width] = useWidth<HTMLDivElement>(900);
  const pattern = useId().replaceAll(':', '');
  const start = Math.min(now, ...tank.stretches.map(({ from }) => from), tank.startedAt);
  const coming = shown(tank, now);
  const last = Math.max(now, ...coming.map(({ at }) => at));
  const room = Math.max((last - start) * 0.04, hour / 6);
  const axis = timeAxis(start, last + room, 1, width - 1, offsetAt(now, zone));
  const bar = { y: 22, h: 18 };
  const x = (at: number): number => Math.round(axis.x(Math.min(Math.max(at, axis.from), axis.to)) * 2) / 2;
  const labels = placed(coming, x, width);
  return (
    <div ref={place} className="ribbon">
      <svg width={width} height={height} role="img" aria-label={w.ribbonTitle(tank.code)}>
        <defs>
          <pattern id={pattern} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <rect width="2.5" height="5" className="ink-hold" />
          </pattern>
        </defs>
        <rect x={0} y={bar.y} width={width} height={bar.h} rx={4} className="ribbon-ground" />
        {tank.stretches.map(({ kind, from, to }, i) => {
          const [a, b] = [x(from), x(to ?? now)];
          const line = kind === 'air' || kind === 'noAir';
          return (
            <rect
              key={i}
              className={`ink-${kind}`}
              x={a}
              width={Math.max(b - a, 1.5)}
              y={line ? bar.y - 6 : bar.y}
              height={line ? 4 : bar.h}
              {...(kind === 'hold' ? { style: { fill: `url(#${pattern})` } } : {})}
            />
          );
        })}
        {coming.map(({ name, at, advised }) => (
          <line
            key={name}
            x1={x(at)}
            x2={x(at)}
            y1={bar.y - 5}
            y2={bar.y + bar.h + 4}
            className={advised ? 'tick advised' : 'tick'}
          />
        ))}
        <path d={`M${String(x(now))} ${String(bar.y - 3)}v${String(bar.h + 6)}`} className="now-line" />
        <path d={`M${String(x(now) - 5)} ${String(bar.y - 11)}h10l-5 8z`} className="now-mark" />
        {labels.map(({ limit, at, anchor }) => (
          <text key={limit.name} x={at} y={height - 6} textAnchor={anchor} className="tick-label">
            {w[`tick_${limit.name}`]} {clockText(limit.at, zone)}
          </text>
        ))}
      </svg>
    </div>
  );
}

/** The limits that matter now: those to come, and the last one passed. */
function shown(tank: Tank, now: number): readonly Limit[] {
  const ahead = tank.limits.filter(({ at }) => at > now);
  const { phase } = tank;
  const near = phase === 'brewing' ? ahead.slice(0, 2) : ahead;
  const before = tank.limits
    .filter(({ at, name }) => at <= now && (phase !== 'holding' || name.startsWith('hold')))
    .slice(-1);
  return phase === 'holding'
    ? [...before, ...near.filter(({ name }) => name.startsWith('hold'))]
    : [...before, ...near];
}

interface Label {
  readonly limit: Limit;
  readonly at: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

/** Labels under their ticks, those that would lie over one another left out, the nearest limit first. */
function placed(limits: readonly Limit[], x: (at: number) => number, width: number): readonly Label[] {
  const taken: [number, number][] = [];
  return [...limits].reverse().flatMap((limit): Label[] => {
    const middle = x(limit.at);
    const half = 62;
    const anchor = middle < half ? 'start' : middle > width - half ? 'end' : 'middle';
    const at = anchor === 'start' ? 2 : anchor === 'end' ? width - 2 : middle;
    const [a, b] =
      anchor === 'start' ? [at, at + 2 * half] : anchor === 'end' ? [at - 2 * half, at] : [at - half, at + half];
    if (taken.some(([c, d]) => a < d && b > c)) return [];
    taken.push([a, b]);
    return [{ limit, at, anchor }];
  });
}
