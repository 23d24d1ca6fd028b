import type { ReactNode } from 'react';

/** How marks are chosen and named. */
export interface Pick {
  readonly selected: string | null;
  readonly onSelect: (recordId: string) => void;
  readonly at: (instant: number) => string;
}

/** Something in the picture that stands for a record: large enough to touch, reachable by keyboard. */
export function Selectable({
  recordId,
  x,
  y,
  label,
  pick,
  children,
}: {
  readonly recordId: string;
  readonly x: number;
  readonly y: number;
  readonly label: string;
  readonly pick: Pick;
  readonly children: ReactNode;
}) {
  const on = pick.selected === recordId;
  return (
    <g
      role="button"
      tabIndex={0}
      aria-pressed={on}
      aria-label={label}
      className={on ? 'selectable on' : 'selectable'}
      onClick={() => pick.onSelect(recordId)}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && event.key !== ' ') return;
        event.preventDefault();
        pick.onSelect(recordId);
      }}
    >
      <rect x={x - 14} y={y - 14} width={28} height={28} rx={8} className="hit" />
      {children}
    </g>
  );
}
