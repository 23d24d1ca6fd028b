import type { CurrentRecord } from '@furrowmark/domain';
import { useState } from 'react';
import { useTankWords } from './useTank.ts';

interface Props {
  readonly record: CurrentRecord;
  /** The record in one line, its time included. */
  readonly line: string;
  /** Strikes the record with this id and type. */
  readonly strike: (recordId: string, type: CurrentRecord['type'], reason: string) => Promise<void>;
}

/** Strikes a record, asked once more first; a strike is taken back by striking the strike. The log keeps all of it. */
export function Strike({ record, line, strike }: Props) {
  const { w } = useTankWords();
  const [asking, setAsking] = useState(false);
  const [busy, setBusy] = useState(false);
  const send = (recordId: string, type: CurrentRecord['type'], reason: string): void => {
    setBusy(true);
    void strike(recordId, type, reason).finally(() => setBusy(false));
  };
  if (record.state === 'struck') {
    const inForce = record.history.find((step) => step.kind === 'struck' && step.inForce);
    return inForce === undefined ? null : (
      <button
        type="button"
        className="chip"
        disabled={busy}
        onClick={() => send(inForce.recordId, 'record.struck', w.unstrikeReason)}
      >
        {w.unstrike}
      </button>
    );
  }
  if (!asking)
    return (
      <button type="button" className="chip" onClick={() => setAsking(true)}>
        {w.strike}
      </button>
    );
  return (
    <div className="stack tight" role="alertdialog" aria-label={w.strike}>
      <p>{w.strikeSure(line)}</p>
      <div className="chips">
        <button
          type="button"
          className="chip"
          disabled={busy}
          onClick={() => send(record.id, record.type, w.strikeReason)}
        >
          {w.strikeYes}
        </button>
        <button type="button" className="chip" onClick={() => setAsking(false)}>
          {w.strikeNo}
        </button>
      </div>
    </div>
  );
}
