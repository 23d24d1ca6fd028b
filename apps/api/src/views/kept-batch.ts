import { batchView, edgesOf, utcText, type Batch, type Season, type TraceEdge } from '@furrowmark/domain';

/** What is kept of one batch. */
export interface KeptBatch {
  readonly batchId: string;
  readonly code: string;
  readonly kind: string;
  readonly phase: string;
  /** From the first to the last thing that happened with it, RFC 3339; null where everything was struck. */
  readonly from: string | null;
  readonly to: string | null;
  /** JSON. */
  readonly facts: string;
  readonly edges: readonly TraceEdge[];
}

/** What is kept of a batch; nothing where no record speaks of it any more. */
export function keptOf(season: Season, batchId: string): KeptBatch[] {
  const batch = season.batch(batchId);
  if (batch === undefined) return [];
  const { id, code, kind, phase } = batch;
  const facts = JSON.stringify(batchView(batch));
  return [{ batchId: id, code, kind, phase, ...boundsOf(batch), facts, edges: edgesOf(season, id) }];
}

function boundsOf(batch: Batch): { from: string | null; to: string | null } {
  let [first, last] = [Infinity, -Infinity];
  for (const { state, at } of batch.records) {
    if (state === 'struck') continue;
    first = Math.min(first, at.at);
    last = Math.max(last, at.at);
  }
  return first === Infinity ? { from: null, to: null } : { from: utcText(first), to: utcText(last) };
}
