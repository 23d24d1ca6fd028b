import type { Moment } from '../facts/time.ts';
import type { BatchId, DrawId, RecordId } from '../records/ids.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { Decimal } from '../quantity/decimal.ts';
import type { CurrentRecord } from '../records/record.ts';
import { uuid5, uuidBytes } from '../records/uuid5.ts';
import { within } from './moments.ts';
import type { Stock } from './stock.ts';
import type { Store } from './store.ts';

/** One load taken from a batch, wherever it was recorded. */
export interface Load {
  /** The draw's subject id: its `drawId`, else derived (`drawSubjectId`). */
  readonly id: string;
  readonly drawId: DrawId | null;
  readonly batchId: BatchId;
  readonly at: Moment;
  readonly quantity: Quantity;
  readonly litres: Decimal | null;
  readonly into: string | undefined;
  readonly keptAerated: boolean;
  readonly recordId: RecordId;
  /** Where it was applied, in order; usually one. */
  readonly applications: readonly CurrentRecord<'application.made'>[];
  readonly ended: readonly CurrentRecord<'draw.ended'>[];
}

/** The tank that the rest of a load went into: its own (also where that is written as carried over), another, or none. */
export function tankOfRest(load: Pick<Load, 'batchId'>, { data }: CurrentRecord<'draw.ended'>): BatchId | null {
  return data.fate === 'putBack' ? load.batchId : data.fate === 'carriedOver' ? (data.intoBatchId ?? null) : null;
}

/**
 * The subject id of a load that is recorded only inside an application: UUIDv5(applicationId, batchId), for the n-th
 * further load of the same batch (n from 1, in the order written) UUIDv5(applicationId, `batchId|n`).
 */
export function drawSubjectId(applicationId: string, batchId: string, further = 0): string {
  return uuid5(uuidBytes(applicationId), further === 0 ? batchId : `${batchId}|${String(further)}`);
}

/** Applications and the loads that they, or draws of their own, took from batches. */
export function loads(store: Store, stock: Stock) {
  const { memo } = store;

  /** The record that describes an application: of several the last in order. */
  const described = memo.view('applicationRecord', (id): CurrentRecord<'application.made'> | undefined =>
    store.naming('application.made', id).findLast((each) => each.data.applicationId === id),
  );
  const shown = (records: readonly CurrentRecord<'application.made'>[]) =>
    records.filter((each) => described(each.data.applicationId)?.id === each.id);

  const drawn = memo.view('drawnRecord', (id): CurrentRecord<'batch.drawn'> | undefined =>
    store.naming('batch.drawn', id).findLast((each) => each.data.drawId === id),
  );

  const endings = (drawId: string) => store.naming('draw.ended', drawId).filter((each) => each.data.drawId === drawId);

  const inline = (application: CurrentRecord<'application.made'>, batchId: string): Load[] => {
    const found: Load[] = [];
    for (const load of application.data.draws) {
      if (!('batchId' in load) || load.batchId !== batchId) continue;
      const id = drawSubjectId(application.data.applicationId, batchId, found.length);
      const at = within(application, load.drawnAt ?? application.data.startedAt);
      found.push({
        id,
        drawId: null,
        batchId: load.batchId,
        at,
        quantity: load.volume,
        litres: stock.litres(load.volume, at),
        into: application.data.equipmentId,
        keptAerated: load.keptAerated === true,
        recordId: application.id,
        applications: [application],
        ended: endings(id),
      });
    }
    return found;
  };

  const ofDraw = (record: CurrentRecord<'batch.drawn'>): Load => {
    const { drawId, batchId, volume, into, keptAerated } = record.data;
    return {
      id: drawId,
      drawId,
      batchId,
      at: record.at,
      quantity: volume,
      litres: stock.litres(volume, record.at),
      into,
      keptAerated: keptAerated === true,
      recordId: record.id,
      applications: shown(store.naming('application.made', drawId)).filter((each) =>
        each.data.draws.some((load) => 'drawId' in load && load.drawId === drawId),
      ),
      ended: endings(drawId),
    };
  };

  const loadsOf = memo.view('loads', (batchId): readonly Load[] => [
    ...store
      .naming('batch.drawn', batchId)
      .filter((each) => each.data.batchId === batchId && drawn(each.data.drawId)?.id === each.id)
      .map(ofDraw),
    ...shown(store.naming('application.made', batchId)).flatMap((each) => inline(each, batchId)),
  ]);

  /** Subject ids of loads recorded only inside applications, with their batches. */
  const inlineBatches = memo.view('inlineBatches', (): ReadonlyMap<string, BatchId> => {
    const found = new Map<string, BatchId>();
    for (const application of shown(store.ofType('application.made'))) {
      const further = new Map<string, number>();
      for (const load of application.data.draws) {
        if (!('batchId' in load)) continue;
        const n = further.get(load.batchId) ?? 0;
        further.set(load.batchId, n + 1);
        found.set(drawSubjectId(application.data.applicationId, load.batchId, n), load.batchId);
      }
    }
    return found;
  });

  return {
    application: described,
    applications: () => shown(store.ofType('application.made')),
    shown,
    loadsOf,
    batchOfDraw: (drawId: string): BatchId | null =>
      drawn(drawId)?.data.batchId ?? inlineBatches('').get(drawId) ?? null,
  };
}

export type Loads = ReturnType<typeof loads>;
