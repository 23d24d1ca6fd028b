import type { Trace, TraceKind } from '@furrowmark/domain';
import type { Block, Cell } from '../../content.ts';
import {
  apportioned,
  dayCell,
  instantCell,
  nameOf,
  numberCell,
  quantityText,
  sumCell,
  unitName,
  type Telling,
} from '../../telling/index.ts';
import { traceReason } from '../../words/trace-reasons.ts';
import { traceWords } from './words.ts';

const places = 3;
const percent = (share: number | undefined): Cell => numberCell(share === undefined ? null : share * 100, 1, '–');

interface Part {
  readonly place: string;
  readonly what: string;
  readonly value: number | null;
}

/** Every part of the lot once: on which field, left where, or not told. */
function partsOf(telling: Telling, trace: Trace): Part[] {
  const own = traceWords[telling.language];
  return [
    ...trace.reached.fields.map(({ code, quantity }) => ({
      place: code,
      what: own.field,
      value: quantity?.value ?? null,
    })),
    ...trace.ends.map((end) => ({
      place: nameOf(telling, end.at.id),
      what: own.ends[end.kind],
      value: end.quantity?.value ?? null,
    })),
    ...trace.unresolved
      .filter(({ quantity }) => quantity !== undefined)
      .map(({ id, quantity }) => ({ place: openThing(telling, id), what: own.open, value: quantity?.value ?? null })),
  ];
}

/** The account of the whole lot; parts are rounded so that what is printed adds up. */
export function accountOf(telling: Telling, trace: Trace): Block[] {
  const own = traceWords[telling.language];
  const whole = trace.whole?.value ?? 0;
  const parts = partsOf(telling, trace);
  const known = parts.flatMap(({ value }) => (value === null ? [] : [value]));
  const amounts = apportioned(known, places);
  const shares = apportioned(
    known.map((value) => (whole === 0 ? 0 : (value / whole) * 100)),
    1,
  );
  let next = 0;
  const rows = parts.map(({ place, what, value }): Cell[] => {
    if (value === null)
      return [{ text: place }, { text: what }, { text: '–', value: null }, { text: '–', value: null }];
    const [amount, share] = [amounts[next] ?? value, shares[next] ?? 0];
    next += 1;
    return [{ text: place }, { text: what }, numberCell(amount, places, '–'), numberCell(share, 1, '–')];
  });
  const unit = trace.whole === undefined ? '' : unitName(trace.whole.unit);
  return [
    { kind: 'heading', level: 2, text: own.account },
    { kind: 'paragraph', text: own.accountNote },
    {
      kind: 'table',
      name: 'account',
      caption: '',
      empty: own.nothing,
      columns: [
        { key: 'place', label: own.place, type: 'text' },
        { key: 'what', label: own.what, type: 'text' },
        { key: 'quantity', label: own.amount(unit), type: 'number' },
        { key: 'sharePercent', label: own.share, type: 'number' },
      ],
      rows,
      total: [
        { text: telling.words.total },
        { text: trace.whole === undefined ? '' : own.cameIn(quantityText(telling, trace.whole, telling.now)) },
        sumCell(
          rows.map((row) => row[2]),
          places,
        ),
        sumCell(
          rows.map((row) => row[3]),
          1,
        ),
      ],
    },
  ];
}

export function reachedTable(telling: Telling, trace: Trace): Block[] {
  const own = traceWords[telling.language];
  const { lots, batches, plantings, harvests, shipments } = trace.reached;
  const kinds = { lot: lots, batch: batches, planting: plantings, harvest: harvests, shipment: shipments } as const;
  const rows = (['lot', 'batch', 'planting', 'harvest', 'shipment'] as const).flatMap((kind) =>
    kinds[kind].map((reached): Cell[] => [
      { text: own.kinds[kind], value: kind },
      { text: reached.code },
      { text: detailOf(telling, kind, reached.id) },
      {
        text: reached.quantity === undefined ? '–' : quantityText(telling, round(reached.quantity), telling.now),
      },
      percent(reached.share),
    ]),
  );
  return [
    { kind: 'heading', level: 2, text: own.reached },
    {
      kind: 'table',
      name: 'reached',
      caption: '',
      empty: own.nothing,
      columns: [
        { key: 'kind', label: own.kind, type: 'text' },
        { key: 'code', label: own.code, type: 'text' },
        { key: 'what', label: own.what, type: 'text' },
        { key: 'quantity', label: own.quantity, type: 'quantity' },
        { key: 'sharePercent', label: own.share, type: 'number' },
      ],
      rows,
    },
  ];
}

const round = (quantity: { readonly value: number; readonly unit: string }): { value: number; unit: string } => ({
  value: Number(quantity.value.toFixed(places)),
  unit: quantity.unit,
});

/** Where a thing stands or went, in a few words. */
function detailOf(telling: Telling, kind: TraceKind, id: string): string {
  const { season } = telling;
  if (kind === 'batch') {
    const vessel = season.batch(id)?.vesselId;
    return vessel === undefined || vessel === null ? '' : nameOf(telling, vessel);
  }
  if (kind === 'planting') return nameOf(telling, season.planting(id)?.started.data.fieldId ?? id);
  if (kind === 'harvest') {
    const harvest = season.harvest(id);
    return harvest === undefined
      ? ''
      : `${nameOf(telling, harvest.fieldId)}, ${quantityText(telling, harvest.record.data.quantity, harvest.at.at)}`;
  }
  const shipped = season.record(id);
  return shipped?.type === 'harvest.shipped'
    ? `${shipped.data.to}, ${quantityText(telling, shipped.data.quantity, shipped.at.at)}`
    : '';
}

/** Every edge of the trace, in order of time, with the record that states it. */
export function stepsTable(telling: Telling, trace: Trace): Block[] {
  const own = traceWords[telling.language];
  const codes = new Map(trace.nodes.map(({ id, code }) => [id, code]));
  const thing = ({ kind, id }: { kind: TraceKind; id: string }): Cell => ({
    text: `${own.kinds[kind]} ${codes.get(id) ?? nameOf(telling, id)}`,
  });
  const timed = trace.edges.map((edge) => ({ edge, record: telling.season.record(edge.recordId) }));
  timed.sort((a, b) => (a.record?.at.at ?? 0) - (b.record?.at.at ?? 0));
  return [
    { kind: 'heading', level: 2, text: own.steps },
    {
      kind: 'table',
      name: 'steps',
      caption: '',
      empty: own.nothing,
      columns: [
        { key: 'at', label: telling.words.time(telling.zone), type: 'instant' },
        { key: 'from', label: own.from, type: 'text' },
        { key: 'to', label: own.to, type: 'text' },
        { key: 'quantity', label: own.quantity, type: 'quantity' },
        { key: 'seq', label: own.record, type: 'number' },
      ],
      rows: timed.map(({ edge, record }) => [
        record === undefined ? { text: '–', value: null } : instantCell(telling, record.at.at),
        thing(edge.from),
        thing(edge.to),
        { text: edge.quantity === undefined ? '–' : quantityText(telling, round(edge.quantity), telling.now) },
        record === undefined ? { text: '–', value: null } : { text: String(record.seq), value: record.seq },
      ]),
    },
  ];
}

/** What was left open; of tea that others got, the batch it was. */
function openThing(telling: Telling, id: string): string {
  const record = telling.season.record(id);
  return nameOf(telling, record?.type === 'tea.supplied' ? record.data.batchId : id);
}

/** The lots that others supplied, at which a trace back ends: from whom, and under which lot of theirs. */
export function suppliedTable(telling: Telling, trace: Trace): Block[] {
  const own = traceWords[telling.language];
  const { season, words } = telling;
  const rows = trace.nodes.flatMap(({ kind, id }): Cell[][] => {
    const lot = kind === 'lot' ? season.lot(id) : undefined;
    if (lot?.origin.kind !== 'received') return [];
    const material = season.material(lot.materialId)?.registered;
    return [
      [
        { text: lot.code },
        { text: material?.name ?? nameOf(telling, lot.materialId) },
        { text: material?.supplier ?? words.notRecorded },
        { text: lot.origin.record.data.supplierLot || words.notRecorded },
        dayCell(telling, lot.at.at),
        { text: quantityText(telling, lot.quantity, lot.at.at) },
      ],
    ];
  });
  return [
    { kind: 'heading', level: 2, text: own.suppliedLots },
    {
      kind: 'table',
      name: 'supplied',
      caption: '',
      empty: own.noSuppliedLots,
      columns: [
        { key: 'lot', label: own.lot, type: 'text' },
        { key: 'material', label: own.material, type: 'text' },
        { key: 'supplier', label: own.supplier, type: 'text' },
        { key: 'supplierLot', label: own.supplierLot, type: 'text' },
        { key: 'received', label: own.received, type: 'date' },
        { key: 'quantity', label: own.quantity, type: 'quantity' },
      ],
      rows,
    },
  ];
}

export function unresolvedTable(telling: Telling, trace: Trace): Block[] {
  const own = traceWords[telling.language];
  return [
    { kind: 'heading', level: 2, text: own.unresolved },
    {
      kind: 'table',
      name: 'unresolved',
      caption: '',
      empty: own.nothingOpen,
      columns: [
        { key: 'thing', label: own.what, type: 'text' },
        { key: 'why', label: own.why, type: 'text', width: 2 },
        { key: 'quantity', label: own.quantity, type: 'quantity' },
      ],
      rows: trace.unresolved.map(({ id, why, quantity }) => [
        { text: openThing(telling, id) },
        { text: traceReason(telling.language, why) },
        { text: quantity === undefined ? '–' : quantityText(telling, round(quantity), telling.now) },
      ]),
    },
  ];
}
