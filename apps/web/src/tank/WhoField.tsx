import { remember, settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { people } from './forms/options.ts';
import type { FormContext } from './forms/index.ts';
import { useTankWords } from './useTank.ts';

interface Props {
  readonly context: FormContext;
  readonly who: string | null;
  readonly onChange: (who: string | null) => void;
}

/** Who did it, by initials: a phone is often shared. The last one stays chosen for the next record. */
export function WhoField({ context, who, onChange }: Props) {
  const { w } = useTankWords();
  const { who: kept } = useExternal(settings);
  const all = people(context);
  if (all.length === 0) return null;
  const choose = (personId: string): void => {
    const next = who === personId ? null : personId;
    onChange(next);
    if (kept !== next) remember({ who: next });
  };
  return (
    <div className="who" role="group" aria-label={w.who}>
      <span className="strong">{w.who}</span>
      <div className="chips">
        {all.map(({ value, label }) => (
          <button key={value} type="button" className="chip" aria-pressed={who === value} onClick={() => choose(value)}>
            {label}
          </button>
        ))}
      </div>
    </div>
  );
}
