import { useEffect, useState } from 'react';
import { ask, askFile } from '../../http/ask.ts';
import { saved } from '../../http/saved.ts';
import { useAsked } from '../../http/useAsked.ts';
import { session } from '../../session/session.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { saidOf, Told } from '../../refusals/Told.tsx';
import { SureButton } from '../SureButton.tsx';
import { deskWords } from '../words.ts';
import { isUnderWay, jobsIn, type ReportJob } from './jobs.ts';
import { reportWords } from './words.ts';

const everyMs = 1_500;

interface Props {
  /** How a kind is called in the device's language. */
  readonly titleOf: (kind: string) => string;
  /** Changes when a job was asked for. */
  readonly asked: number;
}

/** Reports that are made in the background: how far they are, and the files of those that are done. */
export function JobsCard({ titleOf, asked }: Props) {
  const w = useWordsOf(reportWords);
  const { value, again } = useAsked('/report-jobs', jobsIn);
  const underWay = value?.some(isUnderWay) === true;
  useEffect(() => {
    if (asked > 0) again();
  }, [asked, again]);
  useEffect(() => {
    if (!underWay) return undefined;
    const timer = setTimeout(again, everyMs);
    return () => clearTimeout(timer);
  }, [underWay, value, again]);
  if (value === null || value.length === 0) return null;
  return (
    <section className="card" aria-labelledby="jobs">
      <h2 id="jobs">{w.jobs}</h2>
      <ul className="entries">
        {value.map((job) => (
          <OneJob key={job.jobId} job={job} title={titleOf(job.kind)} onDone={again} />
        ))}
      </ul>
    </section>
  );
}

function OneJob({
  job,
  title,
  onDone,
}: {
  readonly job: ReportJob;
  readonly title: string;
  readonly onDone: () => void;
}) {
  const w = useWordsOf(reportWords);
  const desk = useWordsOf(deskWords);
  const [said, setSaid] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const path = `/operations/${session.get()?.operationId ?? ''}/report-jobs/${job.jobId}`;
  const name = `${title} · ${job.form.toUpperCase()}`;
  const get = async (): Promise<void> => {
    setBusy(true);
    const answer = await askFile(`${path}/result`, '*/*', 600_000);
    setBusy(false);
    if (answer.kind === 'file') saved(answer.blob, job.fileName ?? `${job.kind}.${job.form}`);
    else if (answer.kind !== 'ok') setSaid(await saidOf(answer, desk));
  };
  return (
    <li className="row spread">
      <span>
        <strong>{name}</strong> <span className="faint">{w.stateOf(job.state, Math.round(job.progress * 100))}</span>
        {job.detail !== null && (
          <span className="problem">
            {' '}
            <Told text={job.detail} />
          </span>
        )}
        {said !== null && (
          <span role="alert" className="problem">
            {' '}
            {said}
          </span>
        )}
      </span>
      <span className="row">
        {isUnderWay(job) && <progress max={1} value={job.progress} aria-label={name} />}
        {job.state === 'done' && (
          <button
            type="button"
            className="button"
            disabled={busy}
            aria-label={`${w.fetch}: ${name}`}
            onClick={() => void get()}
          >
            {busy ? desk.working : w.fetch}
          </button>
        )}
        <SureButton
          label={isUnderWay(job) ? w.cancel : w.remove}
          about={name}
          sure={isUnderWay(job) ? w.cancelSure : w.removeSure}
          send={() => ask(path, { method: 'DELETE' })}
          onDone={onDone}
        />
      </span>
    </li>
  );
}
