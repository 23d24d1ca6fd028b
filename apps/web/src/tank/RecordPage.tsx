import { useParams } from 'wouter';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { useSeason } from '../season/useSeason.ts';
import { forms, isFormId } from './forms/index.ts';
import { Recording } from './Recording.tsx';
import './tank.css';
import { UnknownBatch } from './UnknownBatch.tsx';
import { useUnfinished } from './useUnfinished.ts';

/** One record of one batch, being written; with `?amend=` the correction of one. */
export default function RecordPage() {
  const { batchId = '', form = '' } = useParams<{ batchId: string; form: string }>();
  const state = useSeason();
  const amend = new URLSearchParams(location.search).get('amend');
  const begun = useUnfinished(batchId, form, amend ?? '');
  if (state.kind !== 'ready') return <EmptyPage kind={state.kind} />;
  const batch = state.season.batch(batchId);
  if (batch === undefined || !isFormId(form)) return <UnknownBatch />;
  if (begun === null) return <EmptyPage kind="loading" />;
  const amending = amend === null ? undefined : state.season.record(amend);
  // A new form for each address, and when it is begun anew: nothing of the last one is carried over.
  return (
    <Recording
      key={`${begun.id} ${String(begun.kept?.keptAt ?? '')}`}
      local={state}
      batch={batch}
      form={forms[form]}
      amending={amending}
      begun={begun}
    />
  );
}
