import { useState } from 'react';
import { FarmTime } from '../clock/FarmTime.tsx';
import { whenText } from '../clock/text.ts';
import { Choice } from '../app/Choice.tsx';
import { TimeField } from './TimeField.tsx';
import { useTankWords } from './useTank.ts';
import { instantOfWhen, type When } from './when.ts';

interface Props {
  readonly when: When;
  readonly now: number;
  readonly zone: string;
  readonly onChange: (when: When) => void;
  /** What the time is of, where it is not plain. */
  readonly label?: string;
}

export function WhenField({ when, now, zone, onChange, label }: Props) {
  const { w, language } = useTankWords();
  const [open, setOpen] = useState(when.kind === 'at');
  const at = instantOfWhen(when, now);
  return (
    <div className="stack tight">
      <p className="when-line">
        <span className="strong">{label ?? w.when}</span> <strong>{whenText(at, zone, language, now)}</strong>
      </p>
      <FarmTime zone={zone} now={now} />
      <div className="chips">
        <button
          type="button"
          className="chip"
          aria-pressed={when.kind === 'now'}
          onClick={() => onChange({ ...when, kind: 'now', value: 0 })}
        >
          {w.whenNow}
        </button>
        {[5, 15, 60].map((minutes) => (
          <button
            key={minutes}
            type="button"
            className="chip"
            aria-pressed={when.kind === 'ago' && when.value === minutes}
            onClick={() => onChange({ ...when, kind: 'ago', value: minutes })}
          >
            {w.whenMinus(minutes)}
          </button>
        ))}
        <button
          type="button"
          className="chip"
          aria-pressed={when.kind === 'at'}
          aria-expanded={open}
          onClick={() => setOpen(!open)}
        >
          {w.whenOther}
        </button>
      </div>
      {open && (
        <>
          <TimeField
            label={w.whenOther}
            at={at}
            zone={zone}
            onChange={(value) => onChange({ ...when, kind: 'at', value })}
          />
          <Choice
            legend={w.exactness}
            options={[
              ['0', w.exact],
              ['5', w.about(5)],
              ['15', w.about(15)],
              ['30', w.about(30)],
              ['60', w.about(60)],
            ]}
            value={String(when.plusMinus)}
            onChange={(text) => onChange({ ...when, plusMinus: Number(text) })}
          />
          <Choice
            legend={w.origin}
            options={[
              ['observed', w.origin_observed],
              ['fromMemory', w.origin_fromMemory],
              ['fromPaper', w.origin_fromPaper],
            ]}
            value={when.origin}
            onChange={(origin) => onChange({ ...when, origin })}
          />
        </>
      )}
    </div>
  );
}
