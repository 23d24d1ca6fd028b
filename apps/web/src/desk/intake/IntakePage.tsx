import { useMemo, useState } from 'react';
import { roleOf, session, writer } from '../../session/session.ts';
import { useExternal } from '../../store/external.ts';
import { enqueue } from '../../store/queue.ts';
import { exchange } from '../../sync/sync.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { SelectEntry, TextEntry } from '../Entry.tsx';
import { FilePick } from '../FilePick.tsx';
import { onSeason } from '../ready.tsx';
import { deskWords } from '../words.ts';
import { Columns } from './Columns.tsx';
import { decimalIn } from './decimalIn.ts';
import { fileText } from './fileText.ts';
import './intake.css';
import { isKind, kinds, type Kind, type Preview } from './preview.ts';
import { Rows } from './Rows.tsx';
import { nothingSaid, requestOf, Said, type About } from './Said.tsx';
import { usePreview } from './usePreview.ts';
import { intakeWords } from './words.ts';
import { Told, Trouble } from '../../refusals/Told.tsx';

/** Tables, loggers' files and outlines of fields: looked at row by row, recorded when somebody accepts them. */
export default onSeason(function IntakePage({ local }) {
  const w = useWordsOf(intakeWords);
  const desk = useWordsOf(deskWords);
  const role = roleOf(useExternal(session));
  const [kind, setKind] = useState<Kind>('lots');
  const [file, setFile] = useState<File | null>(null);
  const [sheets, setSheets] = useState<{ readonly of: string; readonly others: readonly string[] } | null>(null);
  const [text, setText] = useState('');
  const [columns, setColumns] = useState<Readonly<Record<string, string | null>>>({});
  const [about, setAbout] = useState<About>(nothingSaid);
  const [said, setSaid] = useState<string | null>(null);
  const [done, setDone] = useState<number | null>(null);
  const request = useMemo(
    () => (text.trim() === '' ? null : requestOf(kind, text, columns, about)),
    [kind, text, columns, about],
  );
  const { preview, trouble, busy } = usePreview(request);
  const begin = (next: string): void => {
    setText(next);
    setColumns({});
    setAbout((before) => ({ ...before, decimal: decimalIn(next) }));
    setSaid(null);
    setDone(null);
  };
  const pick = async (chosen: File, sheet?: string): Promise<void> => {
    const read = await fileText(chosen, sheet);
    setFile(chosen);
    setSheets(read?.sheet === undefined ? null : { of: read.sheet, others: read.others ?? [] });
    begin(read?.text ?? '');
    if (read === null) setSaid(w.saveAsCsv);
    else if (read.text.length > 1_000_000) setSaid(w.tooLarge);
  };
  if (role === 'inspector') {
    return (
      <section className="page">
        <h1>{w.title}</h1>
        <p className="faint">{desk.notAllowed}</p>
      </section>
    );
  }
  return (
    <section className="page">
      <h1>{w.title}</h1>
      <p className="faint">{w.intro}</p>
      <section className="card" aria-label={w.file}>
        <SelectEntry
          label={w.kind}
          value={kind}
          onChange={(to) => {
            if (!isKind(to)) return;
            setKind(to);
            setColumns({});
            setSaid(null);
          }}
          options={kinds.map((each) => [each, w[`kind_${each}`]] as const)}
        />
        <p className="faint small">{w[`help_${kind}`]}</p>
        <FilePick
          label={w.chooseFile}
          accept={
            kind === 'boundaries' ? '.geojson,.json,application/geo+json' : '.csv,.tsv,.txt,.xlsx,text/csv,text/plain'
          }
          file={file}
          onPick={(chosen) => void pick(chosen)}
        />
        {file !== null && sheets !== null && sheets.others.length > 0 && (
          <SelectEntry
            label={w.sheet}
            value={sheets.of}
            onChange={(to) => void pick(file, to)}
            options={[sheets.of, ...sheets.others].map((each) => [each, each] as const)}
          />
        )}
        {kind !== 'boundaries' && (
          <details>
            <summary>{w.paste}</summary>
            <TextEntry
              label={w.pasted}
              help={w.pasteHelp}
              lines
              optional
              value={file === null ? text : ''}
              onChange={(to) => {
                setFile(null);
                setSheets(null);
                begin(to);
              }}
            />
          </details>
        )}
        {said !== null && (
          <p role="alert" className="problem">
            {said}
          </p>
        )}
      </section>
      {request !== null && (
        <section className="card" aria-label={w.look}>
          <h2>{w.look}</h2>
          <Said season={local.season} kind={kind} about={about} header={preview?.header ?? []} onChange={setAbout} />
          {preview !== null && (
            <Columns preview={preview} onChoose={(member, column) => setColumns({ ...columns, [member]: column })} />
          )}
          {trouble !== null && (
            <p role="alert" className="problem">
              <Trouble answer={trouble} w={desk} />
            </p>
          )}
          {preview?.asks.map((each) => (
            <p key={each} role="alert" className="problem">
              <Told text={each} />
            </p>
          ))}
          {busy && <p role="status">{w.looking}</p>}
          {preview !== null && (
            <Accepting
              key={text}
              preview={preview}
              busy={busy}
              onDone={(n) => {
                setFile(null);
                setSheets(null);
                begin('');
                setSaid(null);
                setDone(n);
              }}
            />
          )}
        </section>
      )}
      {done !== null && (
        <p role="status" className="notice">
          {w.done(done)}
        </p>
      )}
    </section>
  );
});

interface AcceptingProps {
  readonly preview: Preview;
  readonly busy: boolean;
  readonly onDone: (records: number) => void;
}

/** The account of the rows, and the two ways to accept them. */
function Accepting({ preview, busy, onDone }: AcceptingProps) {
  const w = useWordsOf(intakeWords);
  const [working, setWorking] = useState(false);
  const { counts } = preview;
  const records = preview.rows.flatMap((row) => (row.state === 'good' ? row.records : []));
  const accept = async (): Promise<void> => {
    const operationId = session.get()?.operationId;
    if (operationId === undefined || operationId === null) return;
    setWorking(true);
    await enqueue(operationId, records, [], writer());
    void exchange();
    onDone(records.length);
  };
  return (
    <>
      {preview.rows.length > 0 && (
        <p role="status">
          <strong>{w.counts(counts.good, counts.wrong, counts.known, counts.leftOut)}</strong>
        </p>
      )}
      {preview.notes.length > 0 && (
        <ul className="notes">
          {preview.notes.map((note) => (
            <li key={note}>
              <Told text={note} />
            </li>
          ))}
        </ul>
      )}
      <Rows preview={preview} />
      {preview.rows.length > 0 && counts.good === 0 && counts.wrong === 0 && <p className="faint">{w.nothingNew}</p>}
      {counts.good > 0 && (
        <div className="row">
          <button
            type="button"
            className={counts.wrong === 0 ? 'button' : 'button quiet'}
            disabled={working || busy}
            onClick={() => void accept()}
          >
            {counts.wrong === 0 ? w.recordAll(counts.good) : w.recordGood(counts.good, counts.wrong)}
          </button>
          <span className="faint">{counts.wrong === 0 ? w.nothingYet : w.orMend}</span>
        </div>
      )}
    </>
  );
}
