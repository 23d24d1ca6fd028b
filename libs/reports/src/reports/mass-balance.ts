import { decimal, decimalIn, type Batch, type Decimal, type Instant, type Lot } from '@furrowmark/domain';
import type { Block, Cell } from '../content.ts';
import {
  inOwnVolume,
  keptWith,
  nameOf,
  numberCell,
  quantityText,
  report,
  rounded,
  sumCell,
  tell,
  unitName,
  type Telling,
} from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { amountsOver, balanceBefore, lastCount, unknownIn } from './lot-amounts.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { texts } from './mass-balance-words.ts';

const places = 3;

/** What was worked out of a lot last, and for which period: a lot is another object once anything about it has changed. */
const lotFigures = new WeakMap<Lot, LotFigures>();

interface LotFigures {
  readonly start: Instant;
  readonly end: Instant;
  /** From the opening to the count's difference; null where nothing was there and nothing happened. */
  readonly cells: readonly Cell[] | null;
  /** Movements that are missing from the balance. */
  readonly unknown: number;
}

/** Opening + received − used − disposed = closing, as printed: the closing is computed from the printed figures. */
function figuresOf(lot: Lot, { start, end }: Period): LotFigures {
  const before = lotFigures.get(lot);
  if (before?.start === start && before.end === end) return before;
  const amounts = amountsOver(lot, { start, end });
  const [opening, received, used, disposed] = [
    rounded(amounts.opening, places),
    rounded(amounts.received, places),
    rounded(amounts.used, places),
    rounded(amounts.disposed, places),
  ];
  const known = [opening, received, used, disposed];
  const closing = opening.plus(received).minus(used).minus(disposed);
  const count = lastCount(lot, end);
  const counted = count !== undefined && count.at.at >= start ? count.amount : null;
  const book = count === undefined ? null : balanceBefore(lot, count.at.at);
  const difference = counted === null || book === null ? null : counted.minus(book);
  const cells = [
    ...[...known, closing].map((amount) => numberCell(amount, places, '')),
    ...[counted, difference].map((amount) => numberCell(amount, places, '–')),
  ];
  const nothing = known.every((amount) => amount.isZero());
  const figures = { start, end, cells: nothing ? null : cells, unknown: unknownIn(lot, end) };
  lotFigures.set(lot, figures);
  return figures;
}

function lotRow(telling: Telling, lot: Lot, time: Period): Cell[] | null {
  const { cells } = figuresOf(lot, time);
  if (cells === null) return null;
  return [
    { text: lot.code },
    { text: telling.season.material(lot.materialId)?.registered.name ?? nameOf(telling, lot.materialId) },
    { text: unitName(lot.quantity.unit) },
    ...cells,
  ];
}

function inputs(telling: Telling, time: Period): Block[] {
  const own = texts[telling.language];
  const lots = telling.season.lots().toSorted((a, b) => a.code.localeCompare(b.code));
  const gaps = lots.flatMap((lot): Block[] => {
    const { unknown } = figuresOf(lot, time);
    return unknown === 0 ? [] : [{ kind: 'note', tone: 'info', text: own.gaps(lot.code, unknown) }];
  });
  const opened = lots
    .filter(({ origin, at }) => origin.kind === 'received' && origin.record.data.openingStock && isWithin(time, at.at))
    .map(({ code }) => code);
  return [
    { kind: 'heading', level: 2, text: own.inputs },
    ...(opened.length === 0 ? [] : [{ kind: 'paragraph' as const, text: own.opened(opened.join(', ')) }]),
    {
      kind: 'table',
      name: 'inputs',
      caption: '',
      empty: own.noLots,
      columns: [
        { key: 'lot', label: own.lot, type: 'text' },
        { key: 'material', label: own.material, type: 'text' },
        { key: 'unit', label: own.unit, type: 'text' },
        { key: 'opening', label: own.opening, type: 'number' },
        { key: 'received', label: own.received, type: 'number' },
        { key: 'used', label: own.used, type: 'number' },
        { key: 'disposed', label: own.disposed, type: 'number' },
        { key: 'closing', label: own.closing, type: 'number' },
        { key: 'counted', label: own.counted, type: 'number' },
        { key: 'countedLessBook', label: own.difference, type: 'number' },
      ],
      rows: lots.flatMap((lot) => {
        const row = lotRow(telling, lot, time);
        return row === null ? [] : [row];
      }),
    },
    ...gaps,
  ];
}

/** Rows said before: a batch is another object once anything about it has changed. */
const teaRows = new WeakMap<Batch, { readonly unit: string; readonly row: readonly Cell[] }>();

/** Filled + put back − drawn − supplied − lost − remaining = unaccounted, as printed. */
function teaRow(telling: Telling, batch: Batch): readonly Cell[] {
  const unit = telling.volumeUnit;
  const before = teaRows.get(batch);
  if (before?.unit === unit) return before.row;
  const { volume } = batch;
  const lostAndDisposed = volume.lostL.plus(volume.disposedL);
  const left = volume.remainingL ?? batch.content.at(-1)?.litres ?? decimal(0);
  const cells = [volume.filledL, volume.putBackL, volume.drawnL, volume.suppliedL, lostAndDisposed, left].map(
    (litres) => rounded(inOwnVolume(telling, litres) ?? 0, 1),
  );
  const [filled = decimal(0), putBack = decimal(0), ...out] = cells;
  const rest = out.reduce((sum, amount) => sum.minus(amount), filled.plus(putBack));
  const row = [{ text: batch.code }, ...cells.map((amount) => numberCell(amount, 1, '')), numberCell(rest, 1, '')];
  teaRows.set(batch, { unit, row });
  return row;
}

/** When a batch was filled, of every batch of a season: a long log has thousands, a period few. */
const fillsOf = keptWith((season) =>
  season.batches().flatMap((batch) => batch.fills.map(({ finished }) => ({ at: finished.at, batch }))),
);

function tea(telling: Telling, time: Period): Block[] {
  const own = texts[telling.language];
  const filled = fillsOf(telling.season).filter(({ at }) => isWithin(time, at));
  const batches = [...new Set(filled.map(({ batch }) => batch))].sort(
    (a, b) => (a.fills[0]?.started.at ?? 0) - (b.fills[0]?.started.at ?? 0),
  );
  const rows = batches.map((batch) => teaRow(telling, batch));
  const columns = ['filled', 'putBack', 'drawn', 'supplied', 'lost', 'remaining', 'unaccounted'] as const;
  return [
    { kind: 'heading', level: 2, text: own.tea },
    { kind: 'paragraph', text: own.volume(unitName(telling.volumeUnit)) },
    {
      kind: 'table',
      name: 'tea',
      caption: '',
      empty: own.noTea,
      columns: [
        { key: 'batch', label: own.batch, type: 'text' },
        ...columns.map((key) => ({ key, label: own[key], type: 'number' as const })),
      ],
      rows,
      total: [
        { text: telling.words.total },
        ...columns.map((_, index) =>
          sumCell(
            rows.map((row) => row[index + 1]),
            1,
          ),
        ),
      ],
    },
  ];
}

function harvests(telling: Telling, time: Period): Block[] {
  const own = texts[telling.language];
  const made = telling.season.harvests().filter(({ at }) => isWithin(time, at.at));
  return [
    { kind: 'heading', level: 2, text: own.harvests },
    {
      kind: 'table',
      name: 'harvests',
      caption: '',
      empty: own.noHarvests,
      columns: [
        { key: 'harvest', label: own.harvest, type: 'text' },
        { key: 'field', label: own.field, type: 'text' },
        { key: 'soldAs', label: own.soldAs, type: 'text' },
        { key: 'made', label: own.made, type: 'quantity' },
        { key: 'shipped', label: own.shipped, type: 'quantity' },
        { key: 'rest', label: own.rest, type: 'quantity' },
      ],
      rows: made.map(({ code, fieldId, record, shipments }) => {
        const { quantity, soldAs } = record.data;
        const parts = shipments.map((shipment) => decimalIn(shipment.data.quantity, quantity.unit));
        const known = parts.filter((part) => part !== null);
        const shipped = known.length < parts.length ? null : known.reduce((sum, part) => sum.plus(part), decimal(0));
        const text = (amount: Decimal | null): Cell =>
          amount === null
            ? { text: telling.words.notRecorded, value: null }
            : {
                text: quantityText(telling, { value: amount.toNumber(), unit: quantity.unit }, telling.now),
                value: amount.toNumber(),
              };
        return [
          { text: code },
          { text: nameOf(telling, fieldId) },
          { text: own.sold[soldAs], value: soldAs },
          text(decimal(quantity.value)),
          text(shipped),
          text(shipped === null ? null : decimal(quantity.value).minus(shipped)),
        ];
      }),
    },
  ];
}

export const massBalanceBlocks = (telling: Telling, time: Period): Block[] => [
  { kind: 'paragraph', text: texts[telling.language].intro },
  ...inputs(telling, time),
  ...tea(telling, time),
  ...harvests(telling, time),
];

/** Opening + received − used − disposed = closing for every lot; the same for tea and harvests. */
export const massBalance = defineReport({
  kind: 'mass-balance',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const time = periodOf(telling, parameters);
    return report(
      telling,
      { kind: 'mass-balance', title: texts[telling.language].title, period: { from: time.from, to: time.to } },
      massBalanceBlocks(telling, time),
    );
  },
});
