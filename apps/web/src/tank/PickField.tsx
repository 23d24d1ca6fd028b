import { useId } from 'react';
import type { Answer, Field } from './forms/index.ts';
import { useTankWords } from './useTank.ts';

interface Props {
  readonly field: Extract<Field, { kind: 'pick' }>;
  readonly answer: Answer | undefined;
  readonly onChange: (answer: Answer) => void;
}

/** Picking instead of typing. What should not be used says why, and can be picked all the same: it may have happened. */
export function PickField({ field, answer, onChange }: Props) {
  const { w } = useTankWords();
  const name = useId();
  const chosen = answer?.kind === 'pick' ? answer.chosen : [];
  const many = field.many === true;
  const lines = field.options.some(({ detail, trouble }) => (detail ?? '') !== '' || trouble !== undefined);
  const toggle = (value: string): void => {
    const on = chosen.includes(value);
    if (many) onChange({ kind: 'pick', chosen: on ? chosen.filter((each) => each !== value) : [...chosen, value] });
    else onChange({ kind: 'pick', chosen: on && field.required !== true ? [] : [value] });
  };
  return (
    <fieldset className="choice">
      <legend>
        {field.label} {field.required !== true && <span className="faint small">{w.optional}</span>}
      </legend>
      <div className={lines ? 'lines' : 'chips'}>
        {field.options.map(({ value, label, detail, trouble }) => (
          <label key={value} className={lines ? 'chip line-chip' : 'chip'}>
            <input
              type={many || field.required !== true ? 'checkbox' : 'radio'}
              name={name}
              checked={chosen.includes(value)}
              onChange={() => toggle(value)}
            />
            <span>
              <span>
                {label}
                {trouble !== undefined && (
                  <span className="trouble">
                    ✕ {w.unusable}: {trouble}
                  </span>
                )}
                {trouble === undefined && (detail ?? '') !== '' && <span className="detail">{detail}</span>}
              </span>
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
