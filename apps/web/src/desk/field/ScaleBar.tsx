import { scaleBar } from './projection.ts';

interface Props {
  readonly metresPerPx: number;
  /** Where its foot stands, px from above. */
  readonly y: number;
}

/** How long so many metres are in the picture. */
export function ScaleBar({ metresPerPx, y }: Props) {
  const bar = scaleBar(metresPerPx, 140);
  const length = bar / metresPerPx;
  return (
    <g className="scale" aria-hidden="true">
      <path d={`M14 ${String(y - 6)}v6h${length.toFixed(1)}v-6`} />
      <text x={20 + length} y={y + 3}>
        {bar} m
      </text>
    </g>
  );
}
