import { roundText, unitText } from '../../../quantity/text.ts';
import { Told } from '../../../refusals/Told.tsx';
import { useSeason } from '../../../season/useSeason.ts';
import { settings } from '../../../session/settings.ts';
import { useExternal } from '../../../store/external.ts';
import { useWordsOf } from '../../../words/useWords.ts';
import { cornersIn, exchanged, ringsIn } from './corners.ts';
import { outlineWords } from './words.ts';

interface Props {
  /** The outline as text. */
  readonly value: string;
  /** Takes the area that is enclosed for the field's, in the unit that is written there. */
  readonly area?: AreaTaken | undefined;
}

export interface AreaTaken {
  readonly unit: string;
  readonly take: (value: string) => void;
}

/** What the outline encloses; or what is wrong with it. */
export function Enclosed({ value, area }: Props) {
  const w = useWordsOf(outlineWords);
  const { language } = useExternal(settings);
  const local = useSeason();
  const rings = ringsIn(value);
  const drawn = cornersIn(value);
  if (drawn === null || rings === null) {
    const text = drawn === null ? w.noCorners : drawn.length > 0 ? w.tooFew : null;
    return text === null ? null : <p className="problem">{text}</p>;
  }
  if (rings.some(exchanged)) return <p className="problem">{w.turned}</p>;
  if (local.kind !== 'ready') return null;
  const { domain } = local.engine;
  const found = domain.calculations['field-area'].run({ boundary: { type: 'Polygon', coordinates: rings } });
  if (domain.isRefusal(found)) {
    return (
      <p className="problem">
        <Told text={found.refused.errors[0]?.detail ?? found.refused.detail} />
      </p>
    );
  }
  const as = (quantity: { value: number; unit: string }, unit: string): string =>
    `${roundText(domain.numberIn(quantity, unit) ?? NaN, language)} ${unitText(unit, language)}`;
  const text = w.encloses(
    `${as(found.area, '[acr_us]')} (${as(found.area, 'har')})`,
    `${as(found.perimeter, '[ft_i]')} (${as(found.perimeter, 'm')})`,
  );
  const taken = area === undefined ? null : domain.numberIn(found.area, area.unit);
  return (
    <div className="stack">
      <p role="status">
        <strong>{text}</strong> <span className="faint small">{w.flat}</span>
      </p>
      {area !== undefined && taken !== null && (
        <p>
          <button
            type="button"
            className="button quiet"
            onClick={() => area.take(String(Number(taken.toPrecision(3))))}
          >
            {w.takeArea(as(found.area, area.unit))}
          </button>
        </p>
      )}
    </div>
  );
}
