import { useWidth } from '../../picture/useWidth.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { useLocation } from 'wouter';
import type { Ready } from '../ready.tsx';
import './field.css';
import { hasRoom, mapOf, pointsText } from './projection.ts';
import { ScaleBar } from './ScaleBar.tsx';
import { fieldWords } from './words.ts';

/** The fields with a boundary, north up, to scale. */
export function MapPicture({ local, now }: { readonly local: Ready; readonly now: number }) {
  const w = useWordsOf(fieldWords);
  const [place, width] = useWidth<HTMLDivElement>(800);
  const [, go] = useLocation();
  const { engine, season } = local;
  const fields = season.fields().map((field) => ({ id: field.id, ...engine.domain.asOf(field, now) }));
  const map = mapOf(
    fields.flatMap(({ id, boundary }) => {
      const ring = boundary?.coordinates[0];
      return ring === undefined ? [] : [{ id, ring }];
    }),
    width,
    460,
  );
  if (map === null) return <p className="faint">{w.noMap}</p>;
  const height = map.height + 30;
  return (
    <div ref={place}>
      <svg
        className="field-map"
        width={width}
        height={height}
        viewBox={`0 0 ${String(width)} ${String(height)}`}
        role="group"
        aria-label={w.map}
      >
        {map.shapes.map(({ id, points, middle: [x, y] }) => {
          const field = fields.find((each) => each.id === id);
          if (field === undefined) return null;
          const open = (): void => go(`/field/${id}`);
          return (
            <g
              key={id}
              role="link"
              tabIndex={0}
              aria-label={`${field.code}, ${w[`land_${field.landStatus}`]}`}
              className={`ground ${field.landStatus}`}
              onClick={open}
              onKeyDown={(event) => {
                if (event.key === 'Enter') open();
              }}
            >
              <polygon points={pointsText(points)} />
              {!hasRoom(points, field.code) && <title>{field.code}</title>}
              {hasRoom(points, field.code) && (
                <text x={x} y={y} textAnchor="middle" dominantBaseline="middle">
                  {field.code}
                </text>
              )}
            </g>
          );
        })}
        <ScaleBar metresPerPx={map.metresPerPx} y={height - 10} />
      </svg>
    </div>
  );
}
