import type { RuleView } from '@furrowmark/rules';
import { useState } from 'react';
import { batchWords } from '../../batch/words.ts';
import { dayText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { numberText } from '../../quantity/text.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { ruleTitle } from '../../verdict/rules.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { findingWords } from '../findings/words.ts';
import { onSeason, type Ready } from '../ready.tsx';
import { ChangeForm } from './ChangeForm.tsx';
import { figureName } from './figureName.ts';
import './rules.css';
import { ruleWords } from './words.ts';

/** The rule book: what is judged, by which limits, and why; and how to change it. */
export default onSeason(function RuleBookPage({ local }) {
  const w = useWordsOf(ruleWords);
  const { language } = useExternal(settings);
  const now = useNow();
  const [text, setText] = useState('');
  const { engine, season } = local;
  const book = engine.rules.ruleBookView(season, now);
  const last = season.adoptions().find(({ seq }) => seq === book.seq);
  const shown = book.rules.filter(({ ruleId, title }) =>
    `${ruleId} ${ruleTitle(ruleId, title, language)}`.toLowerCase().includes(text.trim().toLowerCase()),
  );
  return (
    <section className="page">
      <h1>{w.title}</h1>
      <p className="faint">{w.intro}</p>
      <p>
        {last === undefined
          ? w.builtInForce
          : w.lastAdopted(dayText(last.at.at, season.timeZone, language, now), last.seq)}
      </p>
      <p className="faint">{w.cautionPlan}</p>
      <label className="stack no-print">
        <span>{w.find}</span>
        <input type="search" value={text} onChange={(event) => setText(event.target.value)} />
      </label>
      <ul className="rule-list" aria-label={w.rules}>
        {shown.map((rule) => (
          <li key={rule.ruleId}>
            <OneRule local={local} rule={rule} />
          </li>
        ))}
      </ul>
      {season.adoptions().length > 0 && (
        <section className="card" aria-labelledby="adopted">
          <h2 id="adopted">{w.history}</h2>
          <ul>
            {season.adoptions().map(({ id, data }) => (
              <li key={id}>
                {w.adopted(dayText(Date.parse(data.effectiveFrom), season.timeZone, language, now), data.reason)}
              </li>
            ))}
          </ul>
        </section>
      )}
    </section>
  );
});

function OneRule({ local, rule }: { readonly local: Ready; readonly rule: RuleView }) {
  const w = useWordsOf(ruleWords);
  const batch = useWordsOf(batchWords);
  const finding = useWordsOf(findingWords);
  const { language } = useExternal(settings);
  const parameters = Object.entries(rule.parameters);
  const marks = [
    batch[`basis_${rule.basis}`],
    finding[`severity_${rule.severity}`],
    rule.enabled ? '' : w.off,
    rule.binds ? '' : w.unbound,
    rule.inSystemPlan ? w.inPlan : '',
  ].filter((mark) => mark !== '');
  return (
    <details className="card">
      <summary className="rule-line">
        <strong>{ruleTitle(rule.ruleId, rule.title, language)}</strong>
        <span className="faint small">{marks.join(' · ')}</span>
      </summary>
      <p>
        <strong>{w.why}.</strong> {local.engine.rules.reasonIn(rule.ruleId, rule.reason, language)}
      </p>
      <p>
        <strong>{w.source}.</strong> {local.engine.rules.sourceIn(rule.citation, language)}
      </p>
      {parameters.length > 0 && (
        <table>
          <thead>
            <tr>
              <th scope="col">{w.limit}</th>
              <th scope="col" className="number">
                {w.now}
              </th>
              <th scope="col" className="number">
                {w.builtIn}
              </th>
            </tr>
          </thead>
          <tbody>
            {parameters.map(([name, { value, unit, description, default: usual }]) => (
              <tr key={name}>
                <th scope="row">{figureName(name, description, undefined, language)}</th>
                <td className="number">
                  <strong>{numberText(value, language)}</strong> {unit ?? ''}
                </td>
                <td className="number">
                  {numberText(usual, language)} {unit ?? ''}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <details className="no-print">
        <summary>{w.change}</summary>
        <ChangeForm local={local} rule={rule} />
      </details>
    </details>
  );
}
