interface Props {
  readonly legend: string;
  readonly options: readonly (readonly [value: string, label: string])[];
  readonly chosen: readonly string[];
  readonly onChange: (chosen: readonly string[]) => void;
}

/** Any of a few, each a target for a thumb. */
export function Several({ legend, options, chosen, onChange }: Props) {
  return (
    <fieldset className="choice">
      <legend>{legend}</legend>
      <div className="chips">
        {options.map(([value, label]) => (
          <label key={value} className="chip">
            <input
              type="checkbox"
              checked={chosen.includes(value)}
              onChange={() =>
                onChange(chosen.includes(value) ? chosen.filter((each) => each !== value) : [...chosen, value])
              }
            />
            <span>{label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
