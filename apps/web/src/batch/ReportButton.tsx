import { useState } from 'react';
import { askFile } from '../http/ask.ts';
import { session } from '../session/session.ts';
import { useWordsOf } from '../words/useWords.ts';
import { batchWords } from './words.ts';

/** The batch record as the service prints it. */
export function ReportButton({ batchId, code }: { readonly batchId: string; readonly code: string }) {
  const w = useWordsOf(batchWords);
  const [state, setState] = useState<'idle' | 'working' | 'failed'>('idle');
  const get = async (): Promise<void> => {
    setState('working');
    const operation = session.get()?.operationId ?? '';
    const answer = await askFile(
      `/operations/${operation}/reports/batch-record.pdf?batchId=${batchId}`,
      'application/pdf',
    );
    if (answer.kind !== 'file') {
      setState('failed');
      return;
    }
    const link = document.createElement('a');
    link.href = URL.createObjectURL(answer.blob);
    link.download = `${code}.pdf`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    setState('idle');
  };
  return (
    <>
      <button type="button" className="button quiet" disabled={state === 'working'} onClick={() => void get()}>
        {state === 'working' ? w.working : w.report}
      </button>
      {state === 'failed' && (
        <span role="alert" className="problem">
          {w.reportFailed}
        </span>
      )}
    </>
  );
}
