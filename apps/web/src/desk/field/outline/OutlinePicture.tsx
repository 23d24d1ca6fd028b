import { useRef, useState, type KeyboardEvent, type MouseEvent, type PointerEvent } from 'react';
import { useWordsOf } from '../../../words/useWords.ts';
import { hasRoom, middleOf, pointsText } from '../projection.ts';
import type { Position, Ring } from '../ring.ts';
import { ScaleBar } from '../ScaleBar.tsx';
import { placeOf, positionAt, shifted, zoomed, type Point, type Size, type View } from './view.ts';
import type { Step } from './corner.ts';
import { outlineWords } from './words.ts';

/** Ground that is drawn already, to draw beside. */
export interface Neighbour {
  readonly id: string;
  readonly code: string;
  readonly ring: Ring;
}

interface Props {
  readonly size: Size;
  readonly view: View;
  readonly onView: (view: View) => void;
  readonly neighbours: readonly Neighbour[];
  /** What is drawn: the outline, then holes. */
  readonly rings: readonly Ring[];
  readonly chosen: number | null;
  readonly onChoose: (corner: number | null) => void;
  readonly onStep: (step: Step) => void;
  readonly onUndo: () => void;
  /** Id of what says how to use the keys. */
  readonly describedBy: string;
}

/** More corners than these in view are too close to one another to be got at: an outline brought in may have 1,000. */
const mostHandles = 100;
const arrows: Readonly<Record<string, Point>> = {
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
};
/** How far an arrow key goes, px; with Shift held one px. */
const stride = (event: KeyboardEvent): number => (event.shiftKey ? 1 : 10);

/** Ground on which corners are put by touch, by mouse or by keys; north up, to scale, with a cross in its middle. */
export function OutlinePicture(props: Props) {
  const { size, view, onView, neighbours, rings, chosen, onChoose, onStep, onUndo, describedBy } = props;
  const w = useWordsOf(outlineWords);
  const picture = useRef<SVGSVGElement>(null);
  /** A corner under the finger, and where it is now. */
  const [pulled, setPulled] = useState<{ readonly corner: number; readonly to: Position } | null>(null);
  /** The click that ends a pull chooses nothing. */
  const wasPulled = useRef(false);
  const [drawn = [], ...holes] = rings;
  const outline = pulled === null || pulled.corner >= drawn.length ? drawn : drawn.with(pulled.corner, pulled.to);
  const place = (each: readonly number[]): Point => placeOf(view, size, each);
  const corners = outline.map(place);
  const withinReach = corners
    .map((point, corner) => ({ point, corner }))
    .filter(({ point: [x, y] }) => x >= 0 && y >= 0 && x <= size.width && y <= size.height);
  const under = ({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }): Position => {
    const box = picture.current?.getBoundingClientRect();
    return positionAt(view, size, [clientX - (box?.left ?? 0), clientY - (box?.top ?? 0)]);
  };
  const touched = (event: MouseEvent): void => {
    const at = under(event);
    onStep(chosen === null ? { kind: 'add', at } : { kind: 'move', corner: chosen, to: at });
  };
  const keyed = (event: KeyboardEvent): void => {
    const arrow = arrows[event.key];
    const by = stride(event);
    if (arrow !== undefined) onView(shifted(view, [arrow[0] * by, arrow[1] * by]));
    else if (event.key === '+' || event.key === '=') onView(zoomed(view, 0.5));
    else if (event.key === '-') onView(zoomed(view, 2));
    else if (event.key === 'Enter')
      onStep({ kind: 'add', at: positionAt(view, size, [size.width / 2, size.height / 2]) });
    else if (event.key === 'Backspace') onUndo();
    else return;
    event.preventDefault();
  };
  const keyedOn = (corner: number, event: KeyboardEvent): void => {
    const arrow = arrows[event.key];
    const [x, y] = corners[corner] ?? [0, 0];
    const by = stride(event);
    if (arrow !== undefined)
      onStep({ kind: 'move', corner, to: positionAt(view, size, [x + arrow[0] * by, y + arrow[1] * by]) });
    else if (event.key === 'Enter' || event.key === ' ') onChoose(chosen === corner ? null : corner);
    else if (event.key === 'Delete') onStep({ kind: 'takeOut', corner });
    else if (event.key === 'Escape') onChoose(null);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const pull = (corner: number): PullHandlers => ({
    onPointerDown: (event) => {
      wasPulled.current = false;
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event) => {
      if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
      if (pulled?.corner === corner || farFrom(corners[corner], event, picture.current))
        setPulled({ corner, to: under(event) });
    },
    onPointerUp: () => {
      wasPulled.current = pulled !== null;
      if (pulled !== null) onStep({ kind: 'move', ...pulled });
      setPulled(null);
    },
    onPointerCancel: () => setPulled(null),
  });
  const [midX, midY] = [size.width / 2, size.height / 2];
  return (
    <svg
      ref={picture}
      className="outline-picture"
      width={size.width}
      height={size.height}
      viewBox={`0 0 ${String(size.width)} ${String(size.height)}`}
      role="application"
      tabIndex={0}
      aria-label={w.picture}
      aria-describedby={describedBy}
      onClick={touched}
      onKeyDown={keyed}
    >
      {neighbours.map(({ id, code, ring }) => {
        const points = ring.map(place);
        const [x, y] = middleOf(points);
        return (
          <g key={id} className="neighbour">
            <polygon points={pointsText(points)} />
            {hasRoom(points, code) && (
              <text x={x} y={y} textAnchor="middle" dominantBaseline="middle">
                {code}
              </text>
            )}
          </g>
        );
      })}
      <g className="drawn">
        <polygon points={pointsText(corners)} />
        {holes.map((hole, i) => (
          <polygon key={i} className="hole" points={pointsText(hole.map(place))} />
        ))}
        <polyline points={pointsText(corners)} />
      </g>
      <path className="cross" d={`M${String(midX - 12)} ${String(midY)}h24M${String(midX)} ${String(midY - 12)}v24`} />
      {withinReach.length > mostHandles && (
        <text x={14} y={24}>
          {w.tooMany}
        </text>
      )}
      {(withinReach.length > mostHandles ? [] : withinReach).map(({ point: [x, y], corner }) => (
        <g
          key={corner}
          role="button"
          tabIndex={0}
          className={corner === chosen ? 'corner chosen' : 'corner'}
          aria-label={w.corner(corner + 1, corners.length)}
          aria-pressed={corner === chosen}
          onClick={(event) => {
            event.stopPropagation();
            if (!wasPulled.current) onChoose(chosen === corner ? null : corner);
          }}
          onKeyDown={(event) => keyedOn(corner, event)}
          {...pull(corner)}
        >
          <circle className="reach" cx={x} cy={y} r={22} />
          <circle cx={x} cy={y} r={10} />
          <text x={x} y={y} textAnchor="middle" dominantBaseline="central">
            {corner + 1}
          </text>
        </g>
      ))}
      <ScaleBar metresPerPx={view.metresPerPx} y={size.height - 14} />
    </svg>
  );
}

interface PullHandlers {
  readonly onPointerDown: (event: PointerEvent) => void;
  readonly onPointerMove: (event: PointerEvent) => void;
  readonly onPointerUp: (event: PointerEvent) => void;
  readonly onPointerCancel: (event: PointerEvent) => void;
}

/** A finger that trembles pulls nothing: 6 px. */
function farFrom(corner: Point | undefined, event: PointerEvent, picture: SVGSVGElement | null): boolean {
  const box = picture?.getBoundingClientRect();
  const [x, y] = corner ?? [0, 0];
  return Math.hypot(event.clientX - (box?.left ?? 0) - x, event.clientY - (box?.top ?? 0) - y) > 6;
}
