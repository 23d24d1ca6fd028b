import type { Batch, CurrentRecord } from '@furrowmark/domain';

/** Records of the batch that were added or changed after the log size that a signature stands over. */
export function changedSince(batch: Batch, throughSeq: number): readonly CurrentRecord[] {
  return batch.records.filter(
    ({ type, seq, state, history }) =>
      type !== 'batch.reviewed' &&
      (seq > throughSeq || (state !== 'current' && history.some((step) => step.inForce && step.seq > throughSeq))),
  );
}
