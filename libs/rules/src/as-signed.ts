import { openSeason, type Batch, type CurrentRecord, type Season } from '@furrowmark/domain';
import { judgeBatch } from './engine/evaluate.ts';
import { changedSince } from './judging/since-review.ts';
import type { Outcome } from './outcome.ts';

/** A signature on a batch, and what stands outside it by now. */
export interface SignedReview {
  readonly recordId: string;
  /** The log's last `seq` that the signature stands over. */
  readonly throughSeq: number;
  readonly meaning: 'reviewed' | 'approved';
  readonly statement: string;
  readonly signedAt: string;
  readonly signedBy: string;
  /** Records of the batch that were added or changed since. */
  readonly amendedSince: readonly string[];
}

/** The signatures on a batch, the oldest first. */
export const reviewsOf = (batch: Batch): readonly SignedReview[] =>
  batch.reviews.map((review) => ({
    recordId: review.id,
    throughSeq: review.data.throughSeq,
    meaning: review.data.meaning,
    statement: review.data.statement,
    signedAt: review.occurredAt,
    signedBy: review.performedBy ?? review.recordedBy,
    amendedSince: changedSince(batch, review.data.throughSeq).map(({ id }) => id),
  }));

/**
 * Records of the batch that none of its signatures stands over, added or changed since the last; null where nobody signed.
 * While there are any, the batch has to be read again.
 */
export const outsideSignatures = (batch: Batch): readonly CurrentRecord[] | null =>
  batch.reviews.length === 0
    ? null
    : changedSince(batch, Math.max(...batch.reviews.map(({ data }) => data.throughSeq)));

/**
 * What was signed: the batch judged on the records up to the signature's `throughSeq` and at the time of signing, whatever
 * was amended, recorded late or adopted since. Folds these records anew. Empty where no such review is known.
 */
export function judgeAsSigned(season: Season, batchId: string, reviewId: string): Outcome[] {
  const review = season.batch(batchId)?.reviews.find(({ id }) => id === reviewId);
  if (review === undefined) return [];
  const signed = season.written().filter(({ seq }) => seq <= review.data.throughSeq);
  return judgeBatch(openSeason(signed), batchId, review.at.at);
}
