import type { KeyboardEvent } from 'react';
import { useWidth } from '../../picture/useWidth.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { deskWords } from '../words.ts';
import { pathsThrough, type Flow, type FlowNode } from './flow.ts';
import './trace.css';
import { traceWords } from './words.ts';

interface Props {
  readonly flowAt: (width: number) => Flow;
  readonly chosen: string | null;
  readonly onChoose: (key: string | null) => void;
}

/** On a phone the picture keeps this width and is pushed sideways, px. */
const least = 640;

/** The way of a thing, left to right; width is quantity. */
export function FlowPicture({ flowAt, chosen, onChoose }: Props) {
  const w = useWordsOf(traceWords);
  const [place, shown] = useWidth<HTMLDivElement>(900);
  const width = Math.max(least, shown);
  const { nodes, links, height } = flowAt(width);
  const on = chosen === null ? null : pathsThrough(links, chosen);
  const at = new Map(nodes.map((node) => [node.key, node]));
  return (
    <div ref={place} className="table-wrap flow-wrap" tabIndex={0} role="region" aria-label={w.picture}>
      <svg
        className="flow"
        width={width}
        height={height}
        viewBox={`0 0 ${String(width)} ${String(height)}`}
        role="group"
        aria-label={w.picture}
      >
        {links.map(({ from, to, thick, y0, y1 }) => {
          const [a, b] = [at.get(from), at.get(to)];
          if (a === undefined || b === undefined) return null;
          const off = on !== null && !(on.has(from) && on.has(to));
          const [x0, x1] = [a.x + 12, b.x];
          const bend = Math.max(24, Math.abs(x1 - x0) / 2);
          const d = `M${String(x0)} ${String(y0)}C${String(x0 + bend)} ${String(y0)} ${String(x1 - bend)} ${String(y1)} ${String(x1)} ${String(y1)}`;
          const kind = thick === null ? 'flow-link bare' : 'flow-link';
          return <path key={`${from}>${to}`} d={d} className={off ? `${kind} off` : kind} strokeWidth={thick ?? 2} />;
        })}
        {nodes.map((node) => (
          <Mark
            key={node.key}
            node={node}
            off={on !== null && !on.has(node.key)}
            chosen={node.key === chosen}
            onChoose={() => onChoose(node.key === chosen ? null : node.key)}
          />
        ))}
      </svg>
    </div>
  );
}

interface MarkProps {
  readonly node: FlowNode;
  readonly off: boolean;
  readonly chosen: boolean;
  readonly onChoose: () => void;
}

function Mark({ node, off, chosen, onChoose }: MarkProps) {
  const desk = useWordsOf(deskWords);
  const { kind, code, x, y, height } = node;
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    onChoose();
  };
  const says = `${desk[`kind_${kind}`]} ${code}`;
  return (
    <g
      role="button"
      tabIndex={0}
      aria-pressed={chosen}
      aria-label={says}
      className={`flow-node ${kind}${off ? ' off' : ''}${chosen ? ' chosen' : ''}`}
      onClick={onChoose}
      onKeyDown={press}
    >
      <rect className="reach" x={x - 2} y={y - 6} width={104} height={Math.max(24, height + 12)} />
      <rect className="bar" x={x} y={y} width={12} height={height} />
      <text x={x + 17} y={y + Math.min(height / 2, 40) + 4}>
        {code.slice(0, 16)}
      </text>
    </g>
  );
}
