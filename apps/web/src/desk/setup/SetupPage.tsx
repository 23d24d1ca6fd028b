import { useEffect, useRef, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { personName } from '../../records/person.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { RegisterForm } from '../field/RegisterForm.tsx';
import { onSeason } from '../ready.tsx';
import { BookForm, LotForm, PersonForm, SourceForm, VesselForm } from './forms.tsx';
import { InspectorAsks } from './InspectorAsks.tsx';
import { OperationForm } from './OperationForm.tsx';
import './setup.css';
import { setupWords } from './words.ts';

type StepName = 'person' | 'source' | 'vessel' | 'lot' | 'field' | 'book';

/** Step by step to the first batch. What is there already is ticked; the next one stands open. */
export default onSeason(function SetupPage({ local }) {
  const w = useWordsOf(setupWords);
  const { engine, season } = local;
  const [skipped, setSkipped] = useState<ReadonlySet<StepName>>(new Set());
  const [opened, setOpened] = useState<StepName | null>(null);
  const there: Readonly<Record<StepName, readonly string[]>> = {
    person: season.people().map((person) => personName(engine, person)),
    source: season.sources().map(({ registered }) => registered.code),
    vessel: season.vessels().map(({ registered }) => registered.code),
    lot: season.lots().map(({ code }) => code),
    field: season.fields().map(({ registered }) => registered.code),
    book: season.adoptions().map(({ data }) => data.reason),
  };
  const names: readonly StepName[] = ['person', 'source', 'vessel', 'lot', 'field', 'book'];
  const next = names.find((name) => there[name].length === 0 && !skipped.has(name)) ?? null;
  const open = opened ?? next;
  const close = (): void => setOpened(null);
  // The next form is begun where the last one ended: by hand and by keyboard alike.
  const steps = useRef<HTMLOListElement>(null);
  const before = useRef(open);
  useEffect(() => {
    if (before.current === open) return;
    before.current = open;
    const next =
      steps.current?.querySelector<HTMLElement>('form :is(input, select, button)') ?? steps.current?.querySelector('a');
    next?.focus();
  }, [open]);
  const forms: Readonly<Record<StepName, ReactNode>> = {
    person: <PersonForm local={local} onDone={close} />,
    source: <SourceForm local={local} onDone={close} />,
    vessel: <VesselForm local={local} onDone={close} />,
    lot: <LotForm local={local} onDone={close} />,
    field: <RegisterForm local={local} onDone={close} />,
    book: <BookForm local={local} onDone={close} />,
  };
  const done = 1 + names.filter((name) => there[name].length > 0).length;
  const ready = there.source.length > 0 && there.vessel.length > 0;
  return (
    <section className="page narrow">
      <h1>{w.title}</h1>
      <p className="faint">{w.intro}</p>
      <p role="status">{w.progress(done, names.length + 1)}</p>
      <ol className="steps" ref={steps}>
        <li className="card">
          <h2>
            <span className="verdict met">● {w.there}</span> {w.s_operation}
          </h2>
          <p className="faint">{season.operation?.registered.name}</p>
        </li>
        {names.map((name) => (
          <li key={name} className="card">
            <h2 id={`step-${name}`}>
              {there[name].length > 0 && <span className="verdict met">● {w.there}</span>} {w[`s_${name}`]}
            </h2>
            {there[name].length > 0 && <p className="faint">{there[name].slice(0, 8).join(', ')}</p>}
            {open === name ? (
              <>
                {forms[name]}
                {there[name].length === 0 && (
                  <p>
                    <button
                      type="button"
                      className="button quiet"
                      onClick={() => {
                        setSkipped(new Set([...skipped, name]));
                        close();
                      }}
                    >
                      {w.skip}
                    </button>
                  </p>
                )}
              </>
            ) : (
              (name !== 'book' || there.book.length === 0) && (
                <p>
                  <button
                    type="button"
                    className="button quiet"
                    aria-describedby={`step-${name}`}
                    onClick={() => setOpened(name)}
                  >
                    {there[name].length > 0 ? w.addMore : w.begin}
                  </button>
                </p>
              )
            )}
          </li>
        ))}
        <li className="card">
          <h2>{w.s_batch}</h2>
          <p className="faint">{ready ? w.startText : w.startNeeds}</p>
          {ready && (
            <p>
              <Link href="/start" className="button">
                {w.start}
              </Link>
            </p>
          )}
        </li>
      </ol>
      <InspectorAsks local={local} />
      <details className="card">
        <summary>{w.another}</summary>
        <OperationForm />
      </details>
    </section>
  );
}, true);
