import { trace as traceFrom, type Lot } from '@furrowmark/domain';
import { z } from 'zod';
import type { Block } from '../../content.ts';
import { epcisDocument } from '../../exchange/epcis/index.ts';
import { localTime } from '../../clock.ts';
import { momentText, nameOf, quantityText, report, tell, type Telling } from '../../telling/index.ts';
import { defineReport } from '../kind.ts';
import { id } from '../parameters.ts';
import { flowOf } from './flow.ts';
import { accountOf, reachedTable, stepsTable, suppliedTable, unresolvedTable } from './tables.ts';
import { traceWords } from './words.ts';

/** What the lot is, and what was said of it since: holds and recalls stand out. `afterRecall`: where to read on. */
export function lotFacts(telling: Telling, lot: Lot, afterRecall = ''): Block[] {
  const own = traceWords[telling.language];
  const { season, zone, words } = telling;
  const material = season.material(lot.materialId)?.registered;
  const received = lot.origin.kind === 'received' ? lot.origin.record : undefined;
  const recalls = lot.recalls.map((recall): Block => ({
    kind: 'note',
    tone: 'caution',
    text: `${own.recalled(localTime(recall.at.at, zone), recall.data.reason)} ${afterRecall}`.trimEnd(),
  }));
  const held = lot.holds.at(-1);
  const hold: Block[] =
    held?.type === 'lot.held'
      ? [{ kind: 'note', tone: 'caution', text: own.held(localTime(held.at.at, zone), held.data.reason) }]
      : [];
  return [
    {
      kind: 'facts',
      items: [
        { term: own.lot, value: lot.code },
        { term: own.material, value: material?.name ?? nameOf(telling, lot.materialId) },
        { term: own.supplier, value: material?.supplier ?? words.notRecorded },
        ...(received === undefined
          ? []
          : [{ term: own.supplierLot, value: received.data.supplierLot || words.notRecorded }]),
        { term: received === undefined ? own.finished : own.received, value: momentText(telling, lot.at) },
        { term: own.quantity, value: quantityText(telling, lot.quantity, lot.at.at) },
        ...(lot.expiresOn === undefined ? [] : [{ term: own.expires, value: lot.expiresOn }]),
      ],
    },
    ...recalls,
    ...hold,
  ];
}

export function forwardBlocks(telling: Telling, lot: Lot): Block[] {
  const found = traceFrom(telling.season, { kind: 'lot', id: lot.id }, 'forward');
  if (found === null) return [];
  const flow = flowOf(telling, found);
  return [
    ...(flow === null ? [] : [flow]),
    ...accountOf(telling, found),
    ...reachedTable(telling, found),
    ...unresolvedTable(telling, found),
    ...stepsTable(telling, found),
  ];
}

function backwardBlocks(telling: Telling, lot: Lot): Block[] {
  const own = traceWords[telling.language];
  if (lot.origin.kind === 'received') return [{ kind: 'paragraph', text: own.lotIsOrigin }];
  const found = traceFrom(telling.season, { kind: 'lot', id: lot.id }, 'backward');
  return found === null
    ? []
    : [...suppliedTable(telling, found), ...unresolvedTable(telling, found), ...stepsTable(telling, found)];
}

/** One lot from the supplier to the harvest, with the account of all of it; for an own lot also where it came from. */
export const lotTrace = defineReport({
  kind: 'lot-trace',
  title: { en: traceWords.en.title, es: traceWords.es.title },
  parameters: z.strictObject({ lot: id, direction: z.enum(['forward', 'backward']).optional() }),
  content(season, { lot: lotId, direction = 'forward' }, given) {
    const lot = season.lot(lotId);
    if (lot === undefined) return null;
    const telling = tell(season, given);
    const own = traceWords[telling.language];
    return report(telling, { kind: 'lot-trace', title: own.of(lot.code), subtitle: own[direction] }, [
      ...lotFacts(telling, lot, own.afterRecall[direction]),
      ...(direction === 'backward' ? backwardBlocks(telling, lot) : forwardBlocks(telling, lot)),
    ]);
  },
  linkedData(season, { lot: lotId }, given) {
    return season.lot(lotId) === undefined ? null : epcisDocument(season, given, { lotId });
  },
});
