import type { Outcome } from '@furrowmark/rules';
import type { Engine } from '../season/engine.ts';

/** What a rule says of its subject, with the subject named. */
export function OutcomeText({ outcome }: { readonly outcome: Outcome; readonly engine: Engine }) {
  return (
    <span className="outcome-text">
      <strong>{outcome.about.code}</strong> <span lang="en">{outcome.message}</span>
    </span>
  );
}
