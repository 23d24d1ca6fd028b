import { useState } from 'react';
import { v7 } from 'uuid';
import { dayText } from '../../clock/text.ts';
import { askFile } from '../../http/ask.ts';
import { saved } from '../../http/saved.ts';
import { session } from '../../session/session.ts';
import { settings } from '../../session/settings.ts';
import { useMayRecord } from '../../session/useMayRecord.ts';
import { useExternal } from '../../store/external.ts';
import { attachment, photoOf } from '../../tank/photo.ts';
import { keep, recordOf } from '../../tank/write.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { TextEntry } from '../Entry.tsx';
import { FilePick } from '../FilePick.tsx';
import type { Ready } from '../ready.tsx';
import { deskWords } from '../words.ts';
import { endingOf, paperOf, type Paper } from './paper.ts';
import { documentWords } from './words.ts';
import { saidOf, toldHere } from '../../refusals/Told.tsx';

interface Props {
  readonly local: Ready;
  /** What the documents are about: a lot, batch, field, or any thing with an id. */
  readonly id: string;
  /** Within another card. */
  readonly plain?: boolean;
}

/** Photos and papers about a thing: listed, opened, attached. */
export function DocumentsOf({ local, id, plain = false }: Props) {
  const w = useWordsOf(documentWords);
  const { language } = useExternal(settings);
  const mayRecord = useMayRecord();
  const { season } = local;
  const attached = season.ofType('document.attached').filter(({ data }) => data.about.some((each) => each === id));
  const heading = `documents-${id}`;
  const [Part, Heading] = plain ? (['div', 'h3'] as const) : (['section', 'h2'] as const);
  return (
    <Part className={plain ? 'stack' : 'card'} aria-labelledby={plain ? undefined : heading}>
      <Heading id={heading}>{w.title}</Heading>
      {attached.length === 0 && <p className="faint">{w.nothing}</p>}
      <ul className="entries">
        {attached.map(({ id: recordId, at, data }) => (
          <li key={recordId} className="row spread">
            <span>
              {data.title}{' '}
              <span className="faint">
                {w.kindOf(data.mediaType)} · {dayText(at.at, season.timeZone, language)}
              </span>
            </span>
            <OpenDocument sha256={data.sha256} title={data.title} mediaType={data.mediaType} />
          </li>
        ))}
      </ul>
      {mayRecord && <Attach local={local} id={id} />}
    </Part>
  );
}

interface OpenProps {
  readonly sha256: string;
  readonly title: string;
  readonly mediaType: string;
}

/** The document as the service keeps it, its bytes held against the digest that the log has. */
function OpenDocument({ sha256, title, mediaType }: OpenProps) {
  const w = useWordsOf(documentWords);
  const desk = useWordsOf(deskWords);
  const [said, setSaid] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const get = async (): Promise<void> => {
    setBusy(true);
    setSaid(null);
    const answer = await askFile(`/operations/${session.get()?.operationId ?? ''}/documents/${sha256}`, '*/*', 120_000);
    setBusy(false);
    if (answer.kind !== 'file') return setSaid(answer.kind === 'ok' ? null : await saidOf(answer, desk));
    const digest = await crypto.subtle.digest('SHA-256', await answer.blob.arrayBuffer());
    const found = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
    if (found !== sha256) return setSaid(w.altered);
    saved(answer.blob, `${title.replaceAll(/[^\p{L}\p{N} ._-]/gu, '-')}${endingOf(mediaType, title)}`);
  };
  return (
    <span className="row">
      <button
        type="button"
        className="button quiet no-print"
        disabled={busy}
        aria-label={w.openOf(title)}
        onClick={() => void get()}
      >
        {busy ? desk.working : w.open}
      </button>
      {said !== null && (
        <span role="alert" className="problem">
          {said}
        </span>
      )}
    </span>
  );
}

function Attach({ local, id }: Omit<Props, 'plain'>) {
  const w = useWordsOf(documentWords);
  const desk = useWordsOf(deskWords);
  const [file, setFile] = useState<File | null>(null);
  const [title, setTitle] = useState('');
  const [said, setSaid] = useState<{ readonly bad: boolean; readonly text: string } | null>(null);
  const attach = async (): Promise<void> => {
    if (file === null) return setSaid({ bad: true, text: w.chooseFirst });
    const paper: Paper = await paperOf(file);
    if (paper.kind !== 'paper') return setSaid({ bad: true, text: w[paper.kind] });
    // A picture is drawn anew, smaller: that also drops what the camera wrote into it about place and device.
    const photo = paper.file.mediaType.startsWith('image/')
      ? await photoOf(file)
      : { documentId: v7(), file: paper.file };
    if (photo === null) return setSaid({ bad: true, text: w.unreadable });
    const named = { ...photo, file: { ...photo.file, title: title.trim() } };
    const record = recordOf(local, { type: 'document.attached', data: attachment(named, [id]), at: Date.now() });
    const problem = await keep(local, [record], [named.file]);
    if (problem !== null) return setSaid({ bad: true, text: await toldHere(problem.detail) });
    setSaid({ bad: false, text: desk.recordedHere });
    setFile(null);
    setTitle('');
  };
  return (
    <details className="no-print">
      <summary>{w.attach}</summary>
      <form
        className="stack record-form"
        onSubmit={(event) => {
          event.preventDefault();
          void attach();
        }}
      >
        <FilePick
          label={w.choose}
          accept="application/pdf,image/*,text/plain,text/csv"
          file={file}
          help={w.chooseHelp}
          onPick={(chosen) => {
            setFile(chosen);
            setSaid(null);
            if (title === '') setTitle(chosen.name.replace(/\.[^.]+$/, ''));
          }}
        />
        <TextEntry label={w.name} help={w.nameHelp} value={title} onChange={setTitle} />
        <div className="row">
          <button type="submit" className="button">
            {w.attach}
          </button>
          {said !== null && (
            <p role={said.bad ? 'alert' : 'status'} className={said.bad ? 'problem' : 'faint'}>
              {said.text}
            </p>
          )}
        </div>
      </form>
    </details>
  );
}
