import type { Batch } from '@furrowmark/domain';
import { judgeBatch, outsideSignatures } from '@furrowmark/rules';
import { z } from 'zod';
import type { Block } from '../../content.ts';
import { choiceText, instantCell, report, tell, verdictBlocks, type Telling } from '../../telling/index.ts';
import { defineReport } from '../kind.ts';
import { id } from '../parameters.ts';
import { glance } from './facts.ts';
import { oxygen } from './oxygen.ts';
import { ribbon } from './ribbon.ts';
import { draws, ingredients, volumeAccount } from './tables.ts';
import { doneBy } from '../record-table.ts';
import { timeline } from './timeline.ts';
import { batchWords } from './words.ts';

/** The life of one batch: facts, pictures, accounts, verdicts worst first, and everything recorded. */
export const batchRecord = defineReport({
  kind: 'batch-record',
  title: { en: 'Batch record', es: 'Registro del lote de té' },
  parameters: z.strictObject({ batch: id }),
  content(season, { batch: batchId }, given) {
    const batch = season.batch(batchId);
    if (batch === undefined) return null;
    const telling = tell(season, given);
    const own = batchWords[telling.language];
    const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId)?.registered.code;
    const kind = telling.words.batchKinds[batch.kind];
    return report(
      telling,
      {
        kind: 'batch-record',
        title: own.title(batch.code),
        subtitle: vessel === undefined ? kind : `${kind}, ${vessel}`,
      },
      batchBlocks(telling, batch),
    );
  },
});

/** The blocks of one batch, for its own record and for a packet of many. */
export function batchBlocks(telling: Telling, batch: Batch): Block[] {
  const own = batchWords[telling.language];
  const outcomes = judgeBatch(telling.season, batch.id, telling.now);
  return [
    ...glance(telling, batch),
    ...ribbon(telling, batch, outcomes),
    ...oxygen(telling, batch, outcomes),
    { kind: 'heading', level: 2, text: own.draws },
    draws(telling, batch, outcomes),
    { kind: 'heading', level: 2, text: own.ingredients },
    ingredients(telling, batch),
    { kind: 'heading', level: 2, text: own.account },
    ...volumeAccount(telling, batch),
    ...verdictBlocks(telling, outcomes),
    { kind: 'note', tone: 'caution', text: own.caution },
    ...timeline(telling, batch.records, new Set([batch.id])),
    ...reviews(telling, batch),
  ];
}

function reviews(telling: Telling, batch: Batch): Block[] {
  const own = batchWords[telling.language];
  return [
    { kind: 'heading', level: 2, text: own.reviews },
    {
      kind: 'table',
      name: 'reviews',
      caption: '',
      empty: own.noReviews,
      columns: [
        { key: 'at', label: telling.words.time(telling.zone), type: 'instant' },
        { key: 'by', label: own.by, type: 'text' },
        { key: 'meaning', label: own.meaning, type: 'text' },
        { key: 'throughSeq', label: own.through, type: 'number' },
        { key: 'statement', label: own.statement, type: 'text' },
      ],
      rows: batch.reviews.map((review) => [
        instantCell(telling, review.at.at),
        { text: doneBy(telling, review) },
        { text: choiceText(telling, 'meaning', review.data.meaning), value: review.data.meaning },
        { text: String(review.data.throughSeq), value: review.data.throughSeq },
        { text: review.data.statement },
      ]),
    },
    // Empty lines to sign on beside a signature over everything would say that there is none.
    ...(outsideSignatures(batch)?.length === 0
      ? []
      : own.sign.map((label): Block => ({ kind: 'blank', label, lines: 1 }))),
  ];
}
