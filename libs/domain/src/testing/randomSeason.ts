import fc from 'fast-check';
import type { LogRecord } from '../records/record.ts';
import type { RecordType } from '../records/catalogue.ts';
import { Book, idOf } from './book.ts';

/** What a random record is made of: small numbers that pick from few things, so that records meet. */
interface Pick {
  readonly kind: number;
  readonly batch: number;
  readonly lot: number;
  readonly draw: number;
  readonly other: number;
  readonly half: number;
  readonly size: number;
  /** How sure the time is, in minutes either way; null for exact. */
  readonly unsure: number | null;
}

const pick: fc.Arbitrary<Pick> = fc.record({
  kind: fc.nat(99),
  batch: fc.nat(5).map((n) => Math.max(0, n - 3)),
  lot: fc.nat(3),
  draw: fc.nat(3),
  other: fc.nat(3),
  half: fc.nat(95),
  size: fc.nat(11),
  unsure: fc.oneof(
    { weight: 3, arbitrary: fc.constant(null) },
    { weight: 1, arbitrary: fc.constantFrom(5, 20, 45, 150) },
  ),
});

/** The half hours of two days in June (and a little of the next); many records share one. */
const time = (half: number) =>
  `2026-06-0${String(2 + Math.floor(half / 48))}T${String(Math.floor((half % 48) / 2)).padStart(2, '0')}:${half % 2 === 0 ? '00' : '30'}:00Z`;

const batch = (n: number) => idOf(`batch ${String(n)}`);
const lot = (n: number) => idOf(`lot ${String(n)}`);
const draw = (n: number) => idOf(`draw ${String(n)}`);
const volume = (size: number) =>
  size % 5 === 0
    ? { value: 10 * size, unit: '[gal_us]' }
    : { value: [7, 33, 100, 250, 1000][size % 5] ?? 1, unit: 'L' };
const stock = (size: number) => ({
  value: [0.7, 3, 5, 10, 13][size % 5] ?? 1,
  unit: ['[lb_av]', '[oz_av]', 'kg', 'g', 'L'][size % 5 === 4 ? 4 : size % 4] ?? 'kg',
});

type Written = { readonly type: RecordType; readonly data: object };

function written({ kind, batch: b, lot: l, draw: d, other, half, size }: Pick): Written {
  const batchId = batch(b);
  const kinds: (() => Written)[] = [
    () => ({
      type: 'batch.opened',
      data: { batchId, code: `T-${String(other)}`, kind: 'aeratedTea', vesselId: idOf('tote') },
    }),
    () => ({ type: 'batch.filled', data: { batchId, sourceId: idOf('water'), volume: volume(size) } }),
    () => ({ type: 'batch.filled', data: { batchId, sourceId: idOf('water'), volume: volume(size) } }),
    () => ({ type: 'batch.airStarted', data: { batchId } }),
    () => ({
      type: 'batch.airStopped',
      data: {
        batchId,
        // A power cut found later, in one stop of four.
        ...(other === 3 ? { lastKnownRunningAt: time(Math.max(0, half - d)), foundAt: time(half + l) } : {}),
      },
    }),
    () => ({ type: 'batch.ingredientAdded', data: { batchId, lotId: lot(l), quantity: stock(size) } }),
    () => ({ type: 'batch.ingredientAdded', data: { batchId, lotId: lot(l), quantity: stock(size) } }),
    () => ({ type: 'batch.neutralizerAdded', data: { batchId, lotId: lot(l), quantity: stock(size) } }),
    () => ({
      type: 'batch.oxygenMeasured',
      data: { batchId, dissolvedOxygen: { value: 4 + size / 3, unit: 'mg/L' } },
    }),
    () => ({ type: 'batch.checked', data: { batchId, odour: ['earthy', 'rotten', 'sour', 'sweet'][other] } }),
    () => ({
      type: 'batch.drawn',
      data: { drawId: draw(d), batchId, volume: volume(size), keptAerated: other === 0 },
    }),
    () => ({
      type: 'draw.ended',
      data: {
        drawId: draw(d),
        volume: volume(size),
        fate: ['dumped', 'putBack', 'carriedOver', 'carriedOver'][other],
        ...(other > 1 ? { intoBatchId: batch(b) } : {}),
      },
    }),
    () => ({
      type: 'application.made',
      data: {
        applicationId: idOf(`application ${String(other)}`),
        targets: [
          size % 4 === 3 ? { lotId: lot(l) } : { fieldId: idOf('field') },
          ...(size % 3 === 1 ? [{ fieldId: idOf('other field') }] : []),
        ],
        ...(size % 4 === 2 ? { tankMix: [{ lotId: lot(l), quantity: stock(size + 1) }] } : {}),
        draws: [
          { drawId: draw(d) },
          { batchId, volume: volume(size) },
          ...(size % 3 === 0 ? [{ batchId, volume: volume(size + 1), drawnAt: time(half) }] : []),
        ],
        startedAt: time(half),
        finishedAt: time(half + 1),
        method: 'soilDrench',
        applicator: idOf('Ines'),
      },
    }),
    () => ({ type: 'batch.lost', data: { batchId, volume: volume(size), cause: 'foam' } }),
    () => ({ type: 'batch.disposed', data: { batchId, volume: volume(size), reason: 'old', where: 'pasture' } }),
    () => ({
      type: 'tea.supplied',
      data: { batchId, volume: volume(size), to: { name: 'orchard' }, statementGiven: 'yes', sold: 'no' },
    }),
    () => ({ type: 'batch.closed', data: { batchId, remainingVolume: volume(size) } }),
    () => ({
      type: 'lot.received',
      data: {
        lotId: lot(l),
        code: `L-${String(other)}`,
        materialId: idOf(`material ${String(other)}`),
        supplierLot: '',
        quantity: { value: 100, unit: ['[lb_av]', 'kg', 'L', 'g'][size % 4] },
      },
    }),
    () => ({
      type: 'material.registered',
      data: {
        materialId: idOf(`material ${String(other)}`),
        code: 'M',
        name: 'm',
        kind: ['compost', 'nutrient', 'antifoam', 'mineral'][size % 4],
        animalOrigin: 'no',
        microbialFood: l === 0 ? 'yes' : 'no',
      },
    }),
    () => ({
      type: 'pile.started',
      data: {
        pileId: idOf(`pile ${String(b)}`),
        code: 'P',
        method: 'windrow',
        inputs: [{ lotId: lot(l), quantity: stock(size) }],
      },
    }),
    () => ({
      type: 'pile.finished',
      data: {
        pileId: idOf(`pile ${String(b)}`),
        lotId: lot(d),
        code: `O-${String(other)}`,
        materialId: idOf(`material ${String(other)}`),
        quantity: stock(size),
      },
    }),
    () => ({ type: 'lot.disposed', data: { lotId: lot(l), quantity: stock(size), reason: 'wet' } }),
    () => ({ type: 'lot.recalled', data: { lotId: lot(l), reason: 'supplier notice' } }),
  ];
  return kinds[kind % kinds.length]?.() ?? { type: 'lot.recalled', data: { lotId: lot(l), reason: '' } };
}

/** Corrects an earlier record (corrections included), by other data of its type, or strikes it. */
interface Correct {
  readonly of: number;
  readonly strike: boolean;
  readonly moved: boolean;
  readonly by: Pick;
}

const step = fc.oneof(
  { weight: 5, arbitrary: pick.map((each) => ({ write: each })) },
  {
    weight: 1,
    arbitrary: fc
      .record({ of: fc.nat(), strike: fc.boolean(), moved: fc.boolean(), by: pick })
      .map((each: Correct) => ({ correct: each })),
  },
);

/** Mostly long, so that records meet; the short ones are for shrinking to. */
const steps = fc.oneof(
  { weight: 1, arbitrary: fc.array(step, { minLength: 1, maxLength: 70 }) },
  { weight: 5, arbitrary: fc.array(step, { minLength: 45, maxLength: 70 }) },
);

/** The places of lots and materials among the kinds of `written`: some seasons begin with a few of each. */
const [lotKind, materialKind] = [17, 18];
const nought: Pick = { kind: 0, batch: 0, lot: 0, draw: 0, other: 0, half: 0, size: 0, unsure: null };

/** Random seasons: rival descriptions, corrections of corrections, loads of unknown draws, ties, tea to and fro. */
export const randomSeason: fc.Arbitrary<LogRecord[]> = fc.tuple(fc.boolean(), steps).map(([described, taken]) => {
  const book = new Book('season');
  const picks: (Pick | null)[] = [];
  const write = (each: Pick, at: string) => {
    const { type, data } = written(each);
    book.any(type, at, data, each.unsure === null ? {} : { plusMinusMinutes: each.unsure });
    picks.push(each);
  };
  if (described) {
    for (const n of [0, 1, 2]) {
      write({ ...nought, kind: lotKind, lot: n, other: n }, '2026-06-01T08:00:00Z');
      write({ ...nought, kind: materialKind, other: n, size: n }, '2026-06-01T08:00:00Z');
    }
  }
  for (const each of taken) {
    if ('write' in each) {
      write(each.write, time(each.write.half));
      continue;
    }
    const { of, strike, moved, by } = each.correct;
    const target = book.records[of % Math.max(1, book.records.length)];
    if (target === undefined) continue;
    const before = picks[of % picks.length];
    if (strike || !before) {
      book.any('record.struck', time(by.half), { recordId: target.id, type: target.type, reason: 'r' });
    } else {
      book.any('record.amended', time(by.half), {
        recordId: target.id,
        type: target.type,
        version: 1,
        data: written({ ...by, kind: before.kind }).data,
        ...(moved ? { occurredAt: time(95 - by.half) } : {}),
        ...(by.unsure === null ? {} : { plusMinusMinutes: by.unsure }),
        reason: 'r',
      });
    }
    picks.push(null);
  }
  return book.records;
});
