import { quantityText, unitText } from '../quantity/text.ts';
import { amountOf, quantityOf, type Answer, type Field } from './forms/index.ts';
import { Keypad } from './Keypad.tsx';
import { useTankWords } from './useTank.ts';

interface Props {
  readonly field: Extract<Field, { kind: 'amount' }>;
  readonly answer: Answer | undefined;
  /** The keypad writes into this one. */
  readonly active: boolean;
  readonly onActivate: () => void;
  readonly onChange: (answer: Answer) => void;
}

/** A figure with its unit in view, likely values to touch, and, where it is the one being written, the keys. */
export function AmountField({ field, answer, active, onActivate, onChange }: Props) {
  const { w, language } = useTankWords();
  const amount = answer?.kind === 'amount' ? answer : { kind: 'amount' as const, text: '', unit: field.units[0] ?? '' };
  const whole = amount.whole;
  const text = language === 'es' ? amount.text.replace('.', ',') : amount.text;
  const type = (written: string): void =>
    onChange({ kind: 'amount', text: written.replace(',', '.').replace(/[^\d.]/g, ''), unit: amount.unit });
  return (
    <div className={active ? 'amount active' : 'amount'}>
      <div className="amount-display">
        <label className="amount-entry">
          <span className="amount-label">
            {field.label} {field.required !== true && <span className="faint small">{w.optional}</span>}
          </span>
          <span className="amount-line">
            <input
              inputMode="none"
              autoComplete="off"
              value={
                whole === undefined
                  ? text
                  : quantityText(whole, language).replace(` ${unitText(whole.unit, language)}`, '')
              }
              placeholder="–"
              aria-required={field.required === true}
              onFocus={onActivate}
              onChange={(event) => type(event.target.value)}
            />
          </span>
        </label>
        <Unit
          field={field}
          unit={amount.unit}
          onChange={(unit) => onChange({ kind: 'amount', text: amount.text, unit })}
        />
      </div>
      {active && (
        <>
          {field.likely !== undefined && field.likely.length > 0 && (
            <div className={field.likely.length === 7 ? 'chips likely figures' : 'chips likely'}>
              {field.likely.map(({ quantity, label }) => {
                const shown = label ?? quantityText(quantity, language);
                const on = JSON.stringify(quantityOf(amount)) === JSON.stringify(quantityOf(amountOf(quantity)));
                return (
                  <button
                    key={shown}
                    type="button"
                    className="chip"
                    aria-pressed={on}
                    onClick={() => onChange(amountOf(quantity))}
                  >
                    {shown}
                  </button>
                );
              })}
            </div>
          )}
          <Keypad text={whole === undefined && amount.guess !== true ? amount.text : ''} onChange={type} />
        </>
      )}
    </div>
  );
}

/** The unit in view; where there are several, a list to choose from. */
function Unit({
  field,
  unit,
  onChange,
}: Pick<Props, 'field'> & { readonly unit: string; readonly onChange: (unit: string) => void }) {
  const { w, language } = useTankWords();
  const measures = field.measures ?? new Map<string, string>();
  const all = [...field.units, ...measures.keys()];
  const units = all.includes(unit) ? all : [unit, ...all];
  if (units.length === 1) return <span className="amount-unit">{unitText(unit, language)}</span>;
  return (
    <select
      className="amount-unit"
      value={unit}
      aria-label={w.unitOf(field.label)}
      onChange={(event) => onChange(event.target.value)}
    >
      {units.map((each) => (
        <option key={each} value={each}>
          {measures.get(each) ?? unitText(each, language)}
        </option>
      ))}
    </select>
  );
}
