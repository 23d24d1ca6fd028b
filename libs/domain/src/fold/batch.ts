import type { Span } from '../facts/time.ts';
import type { Batch, Draw } from '../facts/types.ts';
import { compareCurrent } from '../order.ts';
import type { BatchId } from '../records/ids.ts';
import type { CurrentRecord } from '../records/record.ts';
import type { Additions } from './additions.ts';
import { airChanges, interruptionsIn } from './air.ts';
import type { Load, Loads } from './applications.ts';
import { brewStartOf, foodFrom, topUpsOf } from './brew.ts';
import { drawFacts, inOrderDrawn } from './draws.ts';
import { fillFacts } from './fills.ts';
import { lotAccount } from './lotAccount.ts';
import type { describing } from './missing.ts';
import { oxygenViews } from './oxygen.ts';
import { phaseOf } from './phase.ts';
import type { Registers } from './registers.ts';
import type { Stock } from './stock.ts';
import type { Store } from './store.ts';
import type { Tanks } from './tanks.ts';
import { volumeAccount } from './volume.ts';

interface Folds {
  readonly store: Store;
  readonly registers: Registers;
  readonly stock: Stock;
  readonly loads: Loads;
  readonly additions: Additions;
  readonly tanks: Tanks;
  readonly missingIn: ReturnType<typeof describing>;
}

/** Smells of a living tea. Sour and rotten are not, and ammonia is not (common practice, no source). */
const sound: ReadonlySet<string | undefined> = new Set(['earthy', 'sweet', 'yeasty']);

/** The kept views of batches. A batch is whatever any record names as one, its opening known or not. */
export function batches({ store, registers, stock, loads, additions, tanks, missingIn }: Folds) {
  const naming: Store['naming'] = (type, id) => store.naming(type, id);
  const oxygen = oxygenViews(store, registers);

  return store.memo.view('batch', (id): Batch | undefined => {
    const records = recordsOf(store, id, loads.loadsOf(id));
    const batchId = nameOf(id, records);
    if (batchId === null) return undefined;

    const openings = naming('batch.opened', id).filter((each) => each.data.batchId === id);
    const receipts = naming('tea.received', id);
    const opened = openings.at(-1) ?? null;
    const receivedTea = receipts.at(-1) ?? null;
    const closed = naming('batch.closed', id).at(-1) ?? null;
    const reviews = naming('batch.reviewed', id);
    const oxygenRecords = naming('batch.oxygenMeasured', id);
    const checks = naming('batch.checked', id);
    const supplied = naming('tea.supplied', id);
    const lost = naming('batch.lost', id);
    const disposed = naming('batch.disposed', id);

    const taken = inOrderDrawn(loads.loadsOf(id));
    const added = additions.additionsTo(id);
    const tank = tanks.history(id);
    const brewStart = brewStartOf(added);
    const airStarts = naming('batch.airStarted', id);
    const air = airChanges([...airStarts, ...naming('batch.airStopped', id)]);
    const fills = fillFacts(naming('batch.filled', id), tank, brewStart, air, registers, stock);
    const topUps = topUpsOf(brewStart, added, fills);
    const checked = [...oxygenRecords, ...checks.filter((each) => sound.has(each.data.odour))].map((each) => each.at);
    const interruptions = interruptionsIn(
      air,
      foodFrom(added),
      checked,
      taken.map((load) => load.at),
    );
    const context = {
      air,
      brewStart,
      topUps,
      interruptions,
      checks: checked,
      oxygen: oxygenRecords.map((each) => each.at),
      tank,
      addition: additions.addition,
      stock,
    };
    const draws = taken.map((load) => drawFacts(load, context));
    const lastAir = air.at(-1);
    const beforeBrew = fills.filter((fill) => !fill.ontoLivingTea);

    return {
      id: batchId,
      code: opened?.data.code ?? receivedTea?.data.code ?? id.slice(0, id.indexOf('-')),
      kind: opened?.data.kind ?? 'aeratedTea',
      opened,
      receivedTea,
      rivals: [...openings.slice(0, -1), ...receipts.slice(0, -1)].map((each) => each.id),
      vesselId: opened?.data.vesselId ?? null,
      recipeId: opened?.data.recipeId ?? null,
      fills,
      ingredients: added,
      airStarts: airStarts.map((each) => ({ recordId: each.id, at: each.at, blowerId: each.data.blowerId })),
      interruptions,
      airOff: lastAir === undefined || lastAir.running ? null : lastAir.at,
      brewStart,
      topUps,
      preAerationMinutes: beforeBrew.at(-1)?.airMinutes ?? null,
      chlorine: naming('batch.chlorineMeasured', id).filter((each) => each.data.batchId === id),
      oxygen: oxygenRecords.map((each) => oxygen(each.id)).filter((each) => each !== undefined),
      checks,
      samples: samplesOf(store, id),
      draws,
      losses: [
        ...lost.map((each) => ({ record: each, kind: 'lost' as const })),
        ...disposed.map((each) => ({ record: each, kind: 'disposed' as const })),
        ...supplied.map((each) => ({ record: each, kind: 'supplied' as const })),
      ]
        .sort((a, b) => compareCurrent(a.record, b.record))
        .map(({ record, kind }) => ({
          recordId: record.id,
          at: record.at,
          litres: stock.litres(record.data.volume, record.at),
          kind,
        })),
      content: tank.content.flatMap(({ at, litres, recordId }) => (litres === null ? [] : [{ at, litres, recordId }])),
      volume: volumeAccount(
        {
          filled: naming('batch.filled', id),
          received: receipts,
          carriedIn: naming('draw.ended', id).filter(
            ({ id: ended, data }) => data.intoBatchId === id && tank.carriedIn.has(ended),
          ),
          loads: taken,
          lost,
          disposed,
          supplied,
          closed,
        },
        tank,
        stock.litres,
      ),
      lotAccount: lotAccount(added, taken, new Set(supplied.map((each) => each.id)), tank, additions.addition),
      overdrawn: tank.overdrawn,
      closed,
      reviews,
      phase: phaseOf({
        closed: closed !== null,
        reviewed: reviews.length > 0,
        brewStart,
        receivedTea: receivedTea !== null,
        filled: fills.length > 0,
        airRunning: lastAir?.running === true,
        airOff: lastAir?.running === false,
      }),
      brewHours: worst(
        draws.map((draw) => draw.brewHours),
        (a, b) => a.value < b.value,
      ),
      holdHours: worst(
        draws.map((draw) => draw.holdHours),
        (a, b) => a.value > b.value,
      ),
      records,
      missing: [
        ...(openings.length + receipts.length === 0 && records[0] !== undefined
          ? [{ kind: 'batch', id, recordId: records[0].id }]
          : []),
        ...missingIn(records).filter((each) => each.id !== id),
      ],
    };
  });
}

/** Every record that names the batch or one of its draws or samples, struck ones too, in order, each once. */
function recordsOf(store: Store, id: string, taken: readonly Load[]): readonly CurrentRecord[] {
  const found = new Map(store.allAbout(id).map((each) => [each.id, each]));
  for (const load of taken) for (const each of store.allAbout(load.id)) found.set(each.id, each);
  for (const each of samplesOf(store, id)) found.set(each.id, each);
  return [...found.values()].sort(compareCurrent);
}

function samplesOf(store: Store, id: string): Batch['samples'] {
  const samples = store.naming('batch.sampled', id);
  const analyses = new Map(store.naming('batch.analysed', id).map((each) => [each.id, each]));
  for (const { data } of samples) {
    for (const each of store.naming('batch.analysed', data.sampleId)) {
      if (each.data.batchId === undefined || each.data.batchId === id) analyses.set(each.id, each);
    }
  }
  return [...samples, ...analyses.values()].sort(compareCurrent);
}

/** The id as the records brand it; null where none of them names it as a batch's. */
function nameOf(id: string, records: readonly CurrentRecord[]): BatchId | null {
  for (const { data } of records) {
    if ('batchId' in data && data.batchId === id) return data.batchId;
    if ('intoBatchId' in data && data.intoBatchId === id) return data.intoBatchId;
    if (!('draws' in data)) continue;
    for (const load of data.draws) if ('batchId' in load && load.batchId === id) return load.batchId;
  }
  return null;
}

function worst(spans: readonly Draw['brewHours'][], isWorse: (a: Span, b: Span) => boolean): Span | null {
  return spans.reduce(
    (found, span) => (span !== null && (found === null || isWorse(span, found)) ? span : found),
    null,
  );
}
