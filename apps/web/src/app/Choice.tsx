import { useId } from 'react';

interface Props<T extends string> {
  readonly legend: string;
  readonly options: readonly (readonly [T, string])[];
  readonly value: T | null;
  readonly onChange: (value: T) => void;
  /** Said below the legend. */
  readonly help?: string;
}

/** One of a few, each a target for a thumb. */
export function Choice<T extends string>({ legend, options, value, onChange, help }: Props<T>) {
  const name = useId();
  return (
    <fieldset className="choice">
      <legend>{legend}</legend>
      {help !== undefined && <p className="faint">{help}</p>}
      <div className="chips">
        {options.map(([each, label]) => (
          <label key={each} className="chip">
            <input type="radio" name={name} checked={each === value} onChange={() => onChange(each)} />
            <span>{label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
