import { useId } from 'react';
import { offsetAt } from '../picture/axis.ts';

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

/** `2026-06-03T06:10` on the zone's clock. */
export const localText = (at: number, zone: string): string =>
  new Date(at + offsetAt(at, zone)).toISOString().slice(0, 16);

/** The instant at which the zone's clock shows this; of an hour that comes twice, the first. */
export function fromLocal(text: string, zone: string): number | null {
  const utc = Date.parse(`${text}:00Z`);
  if (Number.isNaN(utc)) return null;
  const first = utc - offsetAt(utc - 12 * 3_600_000, zone);
  return first + offsetAt(first, zone) === utc ? first : utc - offsetAt(utc, zone);
}
