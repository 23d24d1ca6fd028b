import { useState } from 'react';
import { ask } from '../../http/ask.ts';
import { useAsked } from '../../http/useAsked.ts';
import { session } from '../../session/session.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { SelectEntry, TextEntry } from '../Entry.tsx';
import { FileButton } from '../FileButton.tsx';
import { onSeason, type Ready } from '../ready.tsx';
import { ServiceForm } from '../ServiceForm.tsx';
import { things } from '../things.ts';
import '../inspection/inspection.css';
import { JobsCard } from './JobsCard.tsx';
import { askedBy } from './period.ts';
import { reportWords } from './words.ts';

interface Kind {
  readonly kind: string;
  readonly title: { readonly en: string; readonly es: string };
}

/** What a kind is about, where it is about one thing. */
const oneThing: Readonly<Record<string, 'batch' | 'lot' | 'field' | 'harvest'>> = {
  'batch-record': 'batch',
  'lot-trace': 'lot',
  'recall-sheet': 'lot',
  'field-history': 'field',
  'harvest-applications': 'harvest',
  'tank-sheet': 'batch',
};

const member = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null ? Reflect.get(value, name) : undefined;

function kindsIn(body: unknown): readonly Kind[] {
  const list = member(body, 'reports');
  return (Array.isArray(list) ? list : []).flatMap((each: unknown) => {
    const [kind, title] = [member(each, 'kind'), member(each, 'title')];
    const [en, es] = [member(title, 'en'), member(title, 'es')];
    return typeof kind === 'string' && typeof en === 'string' && typeof es === 'string'
      ? [{ kind, title: { en, es } }]
      : [];
  });
}

/** Any report of any period, as a file. */
export default onSeason(function ReportsPage({ local }) {
  const w = useWordsOf(reportWords);
  const { language } = useExternal(settings);
  const { value: kinds, trouble } = useAsked('/reports', kindsIn);
  const [kind, setKind] = useState('season-applications');
  const [asked, setAsked] = useState(0);
  return (
    <section className="page narrow">
      <h1>{w.title}</h1>
      <p className="faint">{w.intro}</p>
      {kinds === null && <p role="status">{trouble === null ? w.loading : w.failed}</p>}
      {kinds !== null && (
        <div className="card">
          <SelectEntry
            label={w.kind}
            value={kind}
            onChange={setKind}
            options={kinds.map((each) => [each.kind, each.title[language]] as const)}
          />
          <Asking key={kind} local={local} kind={kind} onAsked={() => setAsked(asked + 1)} />
        </div>
      )}
      <JobsCard asked={asked} titleOf={(of) => kinds?.find((each) => each.kind === of)?.title[language] ?? of} />
    </section>
  );
});

interface AskingProps {
  readonly local: Ready;
  readonly kind: string;
  readonly onAsked: () => void;
}

/** What the kind has to be told, and its forms. */
function Asking({ local, kind, onAsked }: AskingProps) {
  const w = useWordsOf(reportWords);
  const { language } = useExternal(settings);
  const about = oneThing[kind];
  const candidates =
    about === undefined
      ? []
      : things(local.season).filter(
          (each) =>
            each.kind === about && (kind !== 'recall-sheet' || (local.season.lot(each.id)?.recalls.length ?? 0) > 0),
        );
  const [thing, setThing] = useState(candidates[0]?.id ?? '');
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const parameters = askedBy(
    about !== undefined
      ? { [about]: thing }
      : kind === 'stock'
        ? { on: to }
        : kind === 'changes'
          ? { since: from }
          : { from, to },
  );
  if (about !== undefined && candidates.length === 0) return <p role="status">{w.none}</p>;
  return (
    <>
      {about !== undefined && (
        <SelectEntry
          label={w.about}
          value={thing}
          onChange={setThing}
          options={candidates.map(
            ({ id, code, detail }) => [id, detail === '' ? code : `${code} · ${detail}`] as const,
          )}
        />
      )}
      {about === undefined && (
        <div className="two">
          {kind !== 'stock' && (
            <TextEntry
              label={kind === 'changes' ? w.since : w.from}
              help={kind === 'changes' ? w.sinceHelp : w.days}
              type="date"
              optional
              value={from}
              onChange={setFrom}
            />
          )}
          {kind !== 'changes' && (
            <TextEntry label={kind === 'stock' ? w.on : w.until} type="date" optional value={to} onChange={setTo} />
          )}
        </div>
      )}
      <div className="row">
        {(['pdf', 'csv', 'json'] as const).map((form) => (
          <FileButton
            key={form}
            report={`${kind}.${form}?${parameters}`}
            name={`${kind}.${form}`}
            label={form.toUpperCase()}
          />
        ))}
      </div>
      {about === undefined && (
        <ServiceForm
          label={w.background}
          done={w.backgroundAsked}
          quiet
          send={() =>
            ask(`/operations/${session.get()?.operationId ?? ''}/report-jobs`, {
              method: 'POST',
              json: { kind, form: 'pdf', language, parameters: Object.fromEntries(new URLSearchParams(parameters)) },
            })
          }
          onDone={onAsked}
        >
          <p className="faint small">{w.backgroundHelp}</p>
        </ServiceForm>
      )}
    </>
  );
}
