import type { Basis, Finding, Severity } from '@furrowmark/rules';
import { useState } from 'react';
import { Choice } from '../../app/Choice.tsx';
import { batchWords } from '../../batch/words.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FileButton } from '../FileButton.tsx';
import { onSeason, type Ready } from '../ready.tsx';
import { deskWords } from '../words.ts';
import { OneFinding } from './OneFinding.tsx';
import { useFindings } from './useFindings.ts';
import { findingWords } from './words.ts';

const bases: readonly Basis[] = ['regulation', 'certifier', 'ownPlan', 'guideline', 'practice'];
const weights: readonly Severity[] = ['critical', 'major', 'minor', 'notice'];
const atOnce = 30;

/** Heaviest first: by what is broken, by weight, then the latest. */
function heaviestFirst(engine: Ready['engine'], a: Finding, b: Finding): number {
  return (
    engine.rules.worseFirst(a.outcome, b.outcome) ||
    weights.indexOf(a.severity) - weights.indexOf(b.severity) ||
    (b.since ?? '').localeCompare(a.since ?? '')
  );
}

/** What broke, why, and the answers to it. */
export default onSeason(function FindingsPage({ local }) {
  const w = useWordsOf(findingWords);
  const desk = useWordsOf(deskWords);
  const batch = useWordsOf(batchWords);
  const found = useFindings();
  const [state, setState] = useState<Finding['state'] | 'all'>('open');
  const [severity, setSeverity] = useState<Severity | 'all'>('all');
  const [basis, setBasis] = useState<Basis | 'all'>('all');
  const [most, setMost] = useState(atOnce);
  const wanted = (found ?? [])
    .filter(
      (one) =>
        (state === 'all' || one.state === state) &&
        (severity === 'all' || one.severity === severity) &&
        (basis === 'all' || one.basis === basis),
    )
    .toSorted((a, b) => heaviestFirst(local.engine, a, b));
  const count = (of: Finding['state']): number => (found ?? []).filter((one) => one.state === of).length;
  return (
    <section className="page">
      <header className="row spread">
        <h1>{w.title}</h1>
        <FileButton report="findings.pdf" name="findings.pdf" label="PDF" />
      </header>
      <p className="faint">{w.intro}</p>
      <div className="filters no-print">
        <Choice
          legend={w.state}
          options={[
            ['open', `${w.state_open} ${String(count('open'))}`],
            ['answered', `${w.state_answered} ${String(count('answered'))}`],
            ['resolved', `${w.state_resolved} ${String(count('resolved'))}`],
            ['all', desk.all],
          ]}
          value={state}
          onChange={setState}
        />
        <Choice
          legend={w.severity}
          options={[['all', desk.all], ...weights.map((each) => [each, w[`severity_${each}`]] as const)]}
          value={severity}
          onChange={setSeverity}
        />
        <Choice
          legend={w.basis}
          options={[['all', desk.all], ...bases.map((each) => [each, batch[`basis_${each}`]] as const)]}
          value={basis}
          onChange={setBasis}
        />
      </div>
      <p role="status" className="faint" aria-busy={found === null}>
        {found === null ? w.judging : w.shown(wanted.length, found.length)}
      </p>
      {found !== null && wanted.length === 0 && <p>{w.none}</p>}
      <ul className="findings">
        {wanted.slice(0, most).map((finding) => (
          <li key={finding.findingId}>
            <OneFinding local={local} finding={finding} />
          </li>
        ))}
      </ul>
      {wanted.length > most && (
        <button type="button" className="button quiet" onClick={() => setMost(most + 2 * atOnce)}>
          {desk.more(wanted.length - most)}
        </button>
      )}
    </section>
  );
});
