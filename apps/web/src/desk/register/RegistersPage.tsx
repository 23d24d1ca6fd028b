import { useEffect, useMemo, useRef } from 'react';
import { quantityText } from '../../quantity/text.ts';
import { settings } from '../../session/settings.ts';
import { useMayRecord } from '../../session/useMayRecord.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import type { Language } from '../../words/catalogue.ts';
import { isQuantity } from '../../tank/forms/form.ts';
import { DocumentsOf } from '../documents/DocumentsOf.tsx';
import { More } from '../happened/More.tsx';
import { WhatHappened } from '../happened/WhatHappened.tsx';
import { onSeason, type Ready } from '../ready.tsx';
import { Correct } from './Correct.tsx';
import { listed, listedTypes, type Listed } from './listed.ts';
import { registers } from './members.ts';
import { RegisterNew } from './RegisterNew.tsx';
import { choiceText, memberName, registerWords } from './words.ts';

/** Everything that is registered and has no page of its own: read, added to, corrected. */
export default onSeason(function RegistersPage({ local }) {
  const w = useWordsOf(registerWords);
  return (
    <section className="page">
      <h1>{w.title}</h1>
      <p className="faint">{w.intro}</p>
      {listedTypes.map((type) => (
        <OneRegister key={type} local={local} type={type} />
      ))}
      <More local={local} />
    </section>
  );
});

/** What may be told of a register's things. */
const subjectOf = {
  'vessel.registered': 'vessel',
  'source.registered': 'source',
  'instrument.registered': 'instrument',
  'equipment.registered': 'equipment',
  'measure.registered': null,
  'material.registered': 'material',
} as const;

function OneRegister({ local, type }: { readonly local: Ready; readonly type: (typeof listedTypes)[number] }) {
  const w = useWordsOf(registerWords);
  const mayRecord = useMayRecord();
  const { engine, season } = local;
  const { version } = season;
  const all = useMemo(() => listed(engine, season, type, Date.now()), [engine, season, version, type]);
  const heading = useRef<HTMLHeadingElement>(null);
  // Somebody was sent to this one: `/registers#source.registered`.
  useEffect(() => {
    if (location.hash === `#${type}`) heading.current?.scrollIntoView();
  }, [type]);
  return (
    <section className="card" aria-labelledby={type}>
      <h2 id={type} ref={heading}>
        {w[type]}
      </h2>
      {type === 'measure.registered' && <p className="faint">{w.help_measure}</p>}
      {all.length === 0 && <p className="faint">{w.nothing}</p>}
      <ul className="entries">
        {all.map((thing) => (
          <OneThing key={thing.id} local={local} type={type} thing={thing} />
        ))}
      </ul>
      {mayRecord && (
        <details className="no-print">
          <summary>{w.register}</summary>
          <RegisterNew local={local} type={type} />
        </details>
      )}
    </section>
  );
}

interface ThingProps {
  readonly local: Ready;
  readonly type: (typeof listedTypes)[number];
  readonly thing: Listed;
}

function OneThing({ local, type, thing }: ThingProps) {
  const w = useWordsOf(registerWords);
  const { language } = useExternal(settings);
  return (
    <li>
      <details>
        <summary>
          <span>
            <strong>{thing.code}</strong>{' '}
            <span className="faint">
              {thing.retired === null ? shortOf(thing.now, language) : w.outOfUse(thing.retired)}
            </span>
          </span>
        </summary>
        <dl className="facts">
          {registers[type].members.map(({ name }) => {
            const text = valueText(Reflect.get(thing.now, name), language);
            return text === '' ? null : (
              <div key={name} className="fact">
                <dt>{memberName(name, language)}</dt>
                <dd>{text}</dd>
              </div>
            );
          })}
        </dl>
        {subjectOf[type] !== null && (
          <WhatHappened local={local} of={subjectOf[type]} about={{ [registers[type].id]: thing.id }} />
        )}
        <DocumentsOf local={local} id={thing.id} plain />
        <Correct local={local} recordId={thing.recordId} now={thing.now} />
      </details>
    </li>
  );
}

function valueText(value: unknown, language: Language): string {
  if (isQuantity(value)) return quantityText(value, language);
  if (Array.isArray(value)) return value.map((each) => valueText(each, language)).join(', ');
  if (typeof value === 'boolean') return choiceText(value ? 'yes' : 'no', language);
  return typeof value === 'string' ? choiceText(value, language) : '';
}

/** Kind and size: enough to tell one from another. */
const shortOf = (now: object, language: Language): string =>
  ['kind', 'disinfectant', 'workingVolume', 'equals', 'name']
    // Of untreated water the kind says enough: "well · nothing" does not.
    .filter((name) => name !== 'disinfectant' || Reflect.get(now, name) !== 'none')
    .map((name) => valueText(Reflect.get(now, name), language))
    .filter((text) => text !== '')
    .join(' · ');
