import { dateOn, trace as traceFrom, type Lot, type Trace } from '@furrowmark/domain';
import { z } from 'zod';
import type { Block, Cell } from '../content.ts';
import { dayCell, nameOf, numberCell, quantityText, report, tell, unitName, type Telling } from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { lotFacts } from './lot-trace/lot-trace.ts';
import { id } from './parameters.ts';
import { texts } from './recall-sheet-words.ts';

/** Of a batch that is closed: nobody need look for the tea in that tank now, but somebody may know what became of it. */
function atClosing(telling: Telling, batchId: string): string | undefined {
  const batch = telling.season.batch(batchId);
  if (batch === undefined || batch.closed === null || batch.vesselId === null) return undefined;
  const day = dateOn(batch.closed.at.at, telling.zone);
  return texts[telling.language].atClosing(nameOf(telling, batch.vesselId), day);
}

function left(telling: Telling, trace: Trace): Block {
  const own = texts[telling.language];
  const rows = trace.ends.flatMap((end): Cell[][] => {
    const { kind } = end;
    if (kind !== 'leftInStock' && kind !== 'leftInPile' && kind !== 'leftInTank' && kind !== 'leftInLoad') return [];
    const name = nameOf(telling, end.at.id);
    const closed = kind === 'leftInTank' ? atClosing(telling, end.at.id) : undefined;
    return [[{ text: name }, { text: closed ?? own.left[kind] }, numberCell(end.quantity?.value ?? null, 3, '–')]];
  });
  return {
    kind: 'table',
    name: 'stop',
    caption: '',
    empty: own.nothingLeft,
    columns: [
      { key: 'where', label: own.place, type: 'text' },
      { key: 'what', label: own.what, type: 'text' },
      { key: 'ofLot', label: own.amount(trace.whole === undefined ? '' : unitName(trace.whole.unit)), type: 'number' },
    ],
    rows,
  };
}

function toTell(telling: Telling, trace: Trace): Block {
  const own = texts[telling.language];
  const { season } = telling;
  const shipped = trace.reached.shipments.flatMap(({ id: shipmentId }): Cell[][] => {
    const record = season.record(shipmentId);
    if (record?.type !== 'harvest.shipped') return [];
    const { harvestId, quantity, to, reference } = record.data;
    return [
      [
        dayCell(telling, record.at.at),
        { text: `${own.harvest} ${nameOf(telling, harvestId)}` },
        { text: to },
        { text: quantityText(telling, quantity, record.at.at) },
        { text: reference },
        { text: '' },
      ],
    ];
  });
  const supplied = trace.ends.flatMap((end): Cell[][] => {
    const record = end.kind === 'supplied' && end.recordId !== undefined ? season.record(end.recordId) : undefined;
    if (record?.type !== 'tea.supplied') return [];
    const { batchId, to, volume } = record.data;
    const what = `${own.supplied} ${nameOf(telling, batchId)}`;
    return [
      [
        dayCell(telling, record.at.at),
        { text: what },
        { text: to.name },
        { text: quantityText(telling, volume, record.at.at) },
        { text: '' },
        { text: '' },
      ],
    ];
  });
  return {
    kind: 'table',
    name: 'tell',
    caption: '',
    empty: own.nobody,
    columns: [
      { key: 'date', label: own.date, type: 'date' },
      { key: 'what', label: own.what, type: 'text' },
      { key: 'to', label: own.to, type: 'text' },
      { key: 'quantity', label: own.quantity, type: 'quantity' },
      { key: 'reference', label: own.reference, type: 'text' },
      { key: 'told', label: own.told, type: 'text', width: 2 },
    ],
    rows: [...shipped, ...supplied],
  };
}

function ground(telling: Telling, trace: Trace): Block {
  const own = texts[telling.language];
  const { season, zone } = telling;
  const reachedHarvests = trace.reached.harvests.flatMap((reached) => season.harvest(reached.id) ?? []);
  const applied = new Set(trace.nodes.filter(({ kind }) => kind === 'application').map((node) => node.id));
  const rows = trace.reached.fields.map((field): Cell[] => {
    const applications = season
      .applications()
      .filter((each) => applied.has(each.id) && each.targets.some(({ fieldId }) => fieldId === field.id));
    const crops = new Set(
      applications.flatMap((each) =>
        each.targets.filter(({ fieldId }) => fieldId === field.id).flatMap((target) => target.plantingIds),
      ),
    );
    const last = applications.reduce((latest, each) => Math.max(latest, each.finished.at), -Infinity);
    const here = season.sameGround(field.id);
    const harvests = reachedHarvests
      .filter(({ fieldId }) => here.has(fieldId))
      .map(({ code, at }) => `${code} (${dateOn(at.at, zone)})`);
    return [
      { text: field.code },
      { text: [...crops].map((plantingId) => nameOf(telling, plantingId)).join(', ') || '–' },
      Number.isFinite(last) ? dayCell(telling, last) : { text: '–', value: null },
      { text: harvests.join(', ') || own.notYet },
    ];
  });
  return {
    kind: 'table',
    name: 'ground',
    caption: '',
    empty: own.noGround,
    columns: [
      { key: 'field', label: own.field, type: 'text' },
      { key: 'crop', label: own.crop, type: 'text' },
      { key: 'lastApplied', label: own.applied, type: 'date' },
      { key: 'harvests', label: own.harvested, type: 'text' },
    ],
    rows,
  };
}

function recallBlocks(telling: Telling, lot: Lot): Block[] {
  const own = texts[telling.language];
  const found = traceFrom(telling.season, { kind: 'lot', id: lot.id }, 'forward');
  if (found === null) return [];
  return [
    ...(lot.recalls.length === 0 ? [{ kind: 'note' as const, tone: 'info' as const, text: own.notRecalled }] : []),
    { kind: 'note', tone: 'caution', text: own.caution },
    { kind: 'heading', level: 2, text: own.stop },
    { kind: 'paragraph', text: own.stopNote },
    left(telling, found),
    { kind: 'heading', level: 2, text: own.tell },
    { kind: 'paragraph', text: own.tellNote },
    toTell(telling, found),
    { kind: 'heading', level: 2, text: own.ground },
    ground(telling, found),
    { kind: 'blank', label: own.sign, lines: 1 },
  ];
}

/** What to stop, whom to tell, and which ground and crops a recalled lot reached. */
export const recallSheet = defineReport({
  kind: 'recall-sheet',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: z.strictObject({ lot: id }),
  content(season, { lot: lotId }, given) {
    const lot = season.lot(lotId);
    if (lot === undefined) return null;
    const telling = tell(season, given);
    return report(telling, { kind: 'recall-sheet', title: texts[telling.language].of(lot.code) }, [
      ...lotFacts(telling, lot),
      ...recallBlocks(telling, lot),
    ]);
  },
});
