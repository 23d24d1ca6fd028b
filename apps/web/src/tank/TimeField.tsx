import { useId, useState } from 'react';
import { fromLocal, localText } from '../clock/local.ts';
import { useTankWords } from './useTank.ts';

interface Props {
  readonly label: string;
  readonly at: number | null;
  readonly zone: string;
  readonly onChange: (at: number) => void;
  /** Minutes before now, each one touch. */
  readonly ago?: readonly number[] | undefined;
}

/** A day and a time on the operation's own clock. */
export function TimeField({ label, at, zone, onChange, ago = [] }: Props) {
  const { w } = useTankWords();
  const id = useId();
  const [touched, touch] = useState<number | null>(null);
  return (
    <div className="stack tight">
      <label htmlFor={id}>{label}</label>
      {ago.length > 0 && (
        <div className="chips" role="group" aria-label={label}>
          {ago.map((minutes) => (
            <button
              key={minutes}
              type="button"
              className="chip"
              aria-pressed={touched === minutes}
              onClick={() => {
                touch(minutes);
                onChange(Math.floor(Date.now() / 60_000 - minutes) * 60_000);
              }}
            >
              {minutes === 0 ? w.whenNow : w.whenMinus(minutes)}
            </button>
          ))}
        </div>
      )}
      <input
        id={id}
        type="datetime-local"
        value={at === null ? '' : localText(at, zone)}
        onChange={(event) => {
          const chosen = fromLocal(event.target.value, zone);
          touch(null);
          if (chosen !== null) onChange(chosen);
        }}
      />
    </div>
  );
}
