import type { Outcome } from '@furrowmark/rules';
import { useId, useState } from 'react';
import type { Engine } from '../season/engine.ts';
import { OutcomeText } from '../verdict/OutcomeText.tsx';
import { VerdictMark } from '../verdict/VerdictMark.tsx';
import { useTankWords } from './useTank.ts';

/** What the rules say of it before it is done. It never stands in the way: what happened is recorded. */
export function Before({
  outcomes,
  engine,
}: {
  readonly outcomes: readonly Outcome[] | null;
  readonly engine: Engine;
}) {
  const { w } = useTankWords();
  const id = useId();
  const [open, setOpen] = useState(false);
  if (outcomes === null || outcomes.length === 0) return null;
  const sorted = outcomes.toSorted((a, b) => engine.rules.worseFirst(a.outcome, b.outcome));
  const shown = open ? sorted : sorted.slice(0, 2);
  return (
    <section className="before" aria-labelledby={id} aria-live="polite">
      <h2 id={id}>{w.before}</h2>
      <ul>
        {shown.map((outcome) => (
          <li key={outcome.findingId}>
            <VerdictMark verdict={outcome.outcome} /> <OutcomeText outcome={outcome} />
          </li>
        ))}
      </ul>
      {sorted.length > 2 && (
        <button type="button" className="link-button" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? w.lessElse : `+ ${String(sorted.length - 2)}`}
        </button>
      )}
      <p className="faint small">{w.beforeAnyway}</p>
    </section>
  );
}
