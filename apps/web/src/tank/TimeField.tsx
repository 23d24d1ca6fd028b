import { useId } from 'react';
import { fromLocal, localText } from '../clock/local.ts';

interface Props {
  readonly label: string;
  readonly at: number | null;
  readonly zone: string;
  readonly onChange: (at: number) => void;
}

/** A day and a time on the operation's own clock. */
export function TimeField({ label, at, zone, onChange }: Props) {
  const id = useId();
  return (
    <div className="stack tight">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="datetime-local"
        value={at === null ? '' : localText(at, zone)}
        onChange={(event) => {
          const chosen = fromLocal(event.target.value, zone);
          if (chosen !== null) onChange(chosen);
        }}
      />
    </div>
  );
}
