import type { Finding } from '@furrowmark/rules';
import { useLocation } from 'wouter';
import { Choice } from '../../app/Choice.tsx';
import { whenText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { lineOf } from '../../records/line.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useTypedTexts } from '../../tank/useTyped.ts';
import { OneVerdict } from '../../verdict/Verdicts.tsx';
import { useWordsOf } from '../../words/useWords.ts';
import { TextEntry } from '../Entry.tsx';
import { pageOfRecord } from '../place.ts';
import type { Ready } from '../ready.tsx';
import { RecordForm } from '../RecordForm.tsx';
import { findingWords } from './words.ts';

interface Props {
  readonly local: Ready;
  readonly finding: Finding;
}

/** One finding: the verdict with everything behind it, the answers, and a place to answer. */
export function OneFinding({ local, finding }: Props) {
  const w = useWordsOf(findingWords);
  const set = useExternal(settings);
  const now = useNow();
  const [, go] = useLocation();
  const { engine, season } = local;
  const when = (text: string): string => whenText(Date.parse(text), season.timeZone, set.language, now);
  const recordText = (id: string): string | null => {
    const record = season.record(id);
    if (record === undefined) return null;
    const { what, detail } = lineOf(local, record, set);
    return `${whenText(record.at.at, season.timeZone, set.language, now)} ${what} ${detail}`;
  };
  const open = (id: string): void => {
    const page = pageOfRecord(season, id);
    if (page !== null) go(page);
  };
  return (
    <article className="card finding" aria-label={`${finding.about.code} ${finding.title}`}>
      <OneVerdict engine={engine} outcome={finding} onRecord={open} recordText={recordText} />
      <p className="faint small">
        {[
          w[`severity_${finding.severity}`],
          finding.since === null ? w.sinceUnknown : w.since(when(finding.since)),
          w[`one_${finding.state}`],
          finding.resolvedBy === undefined ? (finding.standing ? '' : w.noLonger) : w.resolvedBy,
        ]
          .filter((part) => part !== '')
          .join(' · ')}
      </p>
      {finding.answers.length > 0 && (
        <ul className="answers" aria-label={w.answers}>
          {finding.answers.map((answer) => (
            <li key={answer.recordId}>
              <p className="small faint">
                {w.answeredBy(when(answer.answeredAt))} · {w[`answer_${answer.state}`]}
              </p>
              <p>{answer.cause}</p>
              <p>{answer.action}</p>
            </li>
          ))}
        </ul>
      )}
      {finding.state !== 'resolved' && (
        <details className="no-print">
          <summary>{w.answer}</summary>
          <AnswerForm local={local} findingId={finding.findingId} />
        </details>
      )}
    </article>
  );
}

const states = ['done', 'open', 'accepted'] as const;

function AnswerForm({ local, findingId }: { readonly local: Ready; readonly findingId: string }) {
  const w = useWordsOf(findingWords);
  const { values, set, done, begun } = useTypedTexts(['finding', findingId], () => ({
    cause: '',
    action: '',
    state: 'done',
  }));
  const { cause, action } = values;
  const state = states.find((each) => each === values.state) ?? 'done';
  return (
    <RecordForm
      local={local}
      facts={() => [{ type: 'finding.answered', data: { findingId, cause, action, state } }]}
      begun={begun}
      onDone={() => done({ cause: '', action: '' })}
    >
      <TextEntry label={w.cause} value={cause} onChange={set('cause')} lines />
      <TextEntry label={w.action} value={action} onChange={set('action')} lines />
      <Choice
        legend={w.answerState}
        options={states.map((each) => [each, w[`answer_${each}`]] as const)}
        value={state}
        onChange={set('state')}
      />
    </RecordForm>
  );
}
