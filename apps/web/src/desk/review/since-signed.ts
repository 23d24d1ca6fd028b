import type { Batch } from '@furrowmark/domain';

/**
 * Records of the batch that came after its last signature, or were corrected after it; null where it was never signed. An
 * amendment changes a record that the signature covers: the batch has to be read again.
 */
export function sinceSigned({ reviews, records }: Pick<Batch, 'reviews' | 'records'>): number | null {
  const last = reviews.reduce((most, { data }) => Math.max(most, data.throughSeq), -1);
  if (last < 0) return null;
  return records.filter(
    ({ seq, type, history }) =>
      type !== 'batch.reviewed' && [seq, ...history.map((step) => step.seq)].some((each) => each > last),
  ).length;
}
