import type { Application, Planting } from '../facts/types.ts';
import { numberIn, decimalIn } from '../quantity/convert.ts';
import type { Decimal } from '../quantity/decimal.ts';
import type { CurrentRecord } from '../records/record.ts';
import { cut, exact, split, whole } from './exact.ts';
import { drawSubjectId, type Loads } from './applications.ts';
import { within } from './moments.ts';
import type { Stock } from './stock.ts';
import type { Store } from './store.ts';

type Target = CurrentRecord<'application.made'>['data']['targets'][number];

/** The kept views of applications: what they took, and how it was shared out among their targets. */
export function applicationViews(
  store: Store,
  stock: Stock,
  { application, loadsOf, batchOfDraw }: Loads,
  standingIn: (fieldId: string, at: number) => readonly Planting[],
) {
  return store.memo.view('application', (id): Application | undefined => {
    const record = application(id);
    if (record === undefined) return undefined;
    const started = within(record, record.data.startedAt);
    const { splitBy, shares } = shareOut(record.data.targets, (target) =>
      target.volume === undefined ? null : stock.litres(target.volume, started),
    );
    return {
      id: record.data.applicationId,
      code: record.data.code ?? `${id.slice(0, id.indexOf('-'))}`,
      record,
      rivals: store
        .naming('application.made', id)
        .filter((each) => each.data.applicationId === id && each.id !== record.id)
        .map((each) => each.id),
      started,
      finished: within(record, record.data.finishedAt),
      loads: loadsIn(record),
      targets: record.data.targets.map((target, i) => ({
        fieldId: target.fieldId,
        lotId: target.lotId,
        plantingIds:
          target.plantingId !== undefined
            ? [target.plantingId]
            : target.fieldId === undefined
              ? []
              : standingIn(target.fieldId, started.at).map((each) => each.id),
        plantingNamed: target.plantingId !== undefined,
        share: shares[i] ?? whole,
        splitBy,
        areaM2: target.area === undefined ? null : numberIn(target.area, 'm2'),
      })),
    };
  });

  function loadsIn(record: CurrentRecord<'application.made'>): Application['loads'] {
    const further = new Map<string, number>();
    const loads = record.data.draws.map((load) => {
      let drawSubject: string;
      let batchId;
      if ('drawId' in load) {
        drawSubject = load.drawId;
        batchId = batchOfDraw(load.drawId);
      } else {
        const n = further.get(load.batchId) ?? 0;
        further.set(load.batchId, n + 1);
        drawSubject = drawSubjectId(record.data.applicationId, load.batchId, n);
        batchId = load.batchId;
      }
      const found = batchId === null ? undefined : loadsOf(batchId).find((each) => each.id === drawSubject);
      return { drawSubjectId: drawSubject, batchId, litres: found?.litres ?? null };
    });
    // A draw named twice in one application was still taken once.
    return loads.filter((load, i) => loads.findIndex((each) => each.drawSubjectId === load.drawSubjectId) === i);
  }
}

/** By the volume of each target, else by the area, else equally: whichever every target says. */
function shareOut(
  targets: readonly Target[],
  litres: (target: Target) => Decimal | null,
): { readonly splitBy: 'volume' | 'area' | 'equal'; readonly shares: readonly Decimal[] } {
  const volumes = targets.map(litres).filter((each) => each !== null);
  if (volumes.length === targets.length && volumes.some((each) => each.gt(0))) {
    return { splitBy: 'volume', shares: split(whole, volumes) };
  }
  const areas = targets
    .map((target) => (target.area === undefined ? null : decimalIn(target.area, 'm2')))
    .filter((each) => each !== null);
  if (areas.length === targets.length && areas.some((each) => each.gt(0))) {
    return {
      splitBy: 'area',
      shares: split(
        whole,
        areas.map((each) => cut(exact(each))),
      ),
    };
  }
  return {
    splitBy: 'equal',
    shares: split(
      whole,
      targets.map(() => whole),
    ),
  };
}
