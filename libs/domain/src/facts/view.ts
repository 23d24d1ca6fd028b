import type { Quantity } from '../quantity/quantity.ts';
import { decimalIn } from '../quantity/convert.ts';
import { compareCurrent } from '../order.ts';
import type { CurrentRecord } from '../records/record.ts';
import { nothing } from '../fold/exact.ts';
import { longestOxygenGapHours } from './oxygenGaps.ts';
import { plain, rounded, spanMembers, timeMembers, timeText } from './rounded.ts';
import type { Batch, Draw, Season } from './types.ts';

/** The batch's facts as JSON: instants as RFC 3339 in UTC, uncertain clocks with a range beside them. */
export function batchView(batch: Batch) {
  const { volume } = batch;
  return {
    volumeFilled: volumeFilled(batch),
    sourceIds: [...new Set(batch.fills.map((fill) => fill.sourceId))],
    vesselId: batch.vesselId,
    recipeId: batch.recipeId,
    ...timeMembers('filledAt', (batch.fills.findLast((fill) => !fill.ontoLivingTea) ?? batch.fills[0])?.finished),
    ...timeMembers('airStartedAt', batch.airStarts[0]?.at),
    ...timeMembers('brewStartedAt', batch.brewStart),
    ...timeMembers('airStoppedAt', batch.airOff),
    ...spanMembers('preAerationMinutes', batch.preAerationMinutes),
    ...spanMembers('brewHours', batch.brewHours),
    ...spanMembers('holdHours', batch.holdHours),
    airInterruptions: batch.interruptions.flatMap((each) =>
      each.restarted === null
        ? []
        : [
            {
              from: timeText(each.stopped),
              to: timeText(each.restarted),
              ...spanMembers('minutes', each.minutes),
              cause: each.cause ?? null,
              duringBrew: each.duringBrew,
              checkedAfter: each.checkedAfter,
            },
          ],
    ),
    topUps: batch.topUps.map((each) => ({ recordId: each.recordId, at: timeText(each.at), what: each.what })),
    draws: batch.draws.map(drawView),
    oxygen: {
      lowestMgPerL: batch.oxygen.reduce<number | null>(
        (low, { mgPerL }) => (low === null ? mgPerL : Math.min(low, mgPerL)),
        null,
      ),
      longestGapHours: orRounded(longestOxygenGapHours(batch)),
      /** The longest of the draws'. */
      lastBeforeDrawMinutes: batch.draws.reduce<number | null>(
        (longest, { lastOxygenMinutes: last }) =>
          last === null ? longest : Math.max(longest ?? 0, rounded(last.value)),
        null,
      ),
      readings: batch.oxygen.map((each) => ({
        recordId: each.recordId,
        at: timeText(each.at),
        mgPerL: each.mgPerL,
        temperatureC: orRounded(each.temperatureC),
        saturationPercent: each.saturationPercent === null ? null : Math.round(each.saturationPercent * 10) / 10,
        ...(each.qualifier === undefined ? {} : { qualifier: each.qualifier }),
        instrumentId: each.instrumentId ?? null,
      })),
    },
    ingredients: batch.ingredients.map((each) => ({
      recordId: each.recordId,
      kind: each.kind,
      lotId: each.lotId,
      materialId: each.materialId,
      quantity: each.quantity,
      at: timeText(each.at),
    })),
    lots: batch.lotAccount.map(({ lotId, added, drawn, lost, left }) => ({
      lotId,
      added: plain(added),
      drawn: plain(drawn),
      lost: plain(lost),
      left: plain(left),
    })),
    volume: {
      filledL: plain(volume.filledL),
      putBackL: plain(volume.putBackL),
      drawnL: plain(volume.drawnL),
      suppliedL: plain(volume.suppliedL),
      lostL: plain(volume.lostL),
      disposedL: plain(volume.disposedL),
      remainingL: volume.remainingL === null ? null : plain(volume.remainingL),
      /** What stands in the tank by the books. */
      contentL: plain(batch.content.at(-1)?.litres ?? nothing),
      unaccountedL: plain(volume.unaccountedL),
    },
    missing: batch.missing,
  };
}

function orRounded(value: number | null): number | null {
  return value === null ? null : rounded(value);
}

function drawView(draw: Draw) {
  return {
    id: draw.id,
    drawId: draw.drawId,
    applicationId: draw.applicationId,
    at: timeText(draw.at),
    volumeL: draw.litres === null ? null : plain(draw.litres),
    ...spanMembers('brewHours', draw.brewHours),
    ...spanMembers('holdHours', draw.holdHours),
    ...timeMembers('lastAirAt', draw.lastAir),
    ...timeMembers('appliedUntil', draw.appliedUntil),
    uncheckedInterruptionHours: rounded(draw.uncheckedInterruptionHours),
    keptAerated: draw.keptAerated,
    shareOfTank: draw.shareOfTank,
    lots: draw.lots.map(({ lotId, amount }) => ({ lotId, amount: plain(amount) })),
    ended: draw.ended.map((each) => ({
      recordId: each.recordId,
      fate: each.fate,
      volumeL: each.litres === null ? null : plain(each.litres),
      intoBatchId: each.intoBatchId ?? null,
      at: timeText(each.at),
    })),
  };
}

/** Water (or tea received) put in, in the unit of the first fill. */
function volumeFilled(batch: Batch): Quantity | null {
  const unit = batch.fills[0]?.quantity.unit ?? batch.receivedTea?.data.volume.unit;
  if (unit === undefined) return null;
  const litres = batch.volume.filledL.minus(batch.volume.carriedInL);
  const proper = unit === '{measure}' ? 'L' : unit;
  const amount = decimalIn({ value: litres, unit: 'L' }, proper);
  return amount === null ? null : { value: plain(amount), unit: proper };
}

/**
 * Everything recorded about the batch in order of time, with what each record said before. A record that an amendment
 * turned to another batch stays in view here, marked `turnedAway`.
 */
export function timeline(season: Season, batch: Batch) {
  const turnedAway = season.onceAbout(batch.id).filter((record) => !batch.records.includes(record));
  const entry = (record: CurrentRecord) => ({
    recordId: record.id,
    seq: record.seq,
    type: record.type,
    occurredAt: record.occurredAt,
    recordedAt: record.recordedAt,
    recordedBy: record.recordedBy,
    ...(record.plusMinusMinutes === undefined ? {} : { plusMinusMinutes: record.plusMinusMinutes }),
    ...(record.enteredAt === undefined ? {} : { enteredAt: record.enteredAt }),
    ...(record.performedBy === undefined ? {} : { performedBy: record.performedBy }),
    ...(record.origin === undefined ? {} : { origin: record.origin }),
    data: record.data,
    state: record.state,
    ...(turnedAway.includes(record) ? { turnedAway: true } : {}),
    history: record.history,
  });
  return [...batch.records, ...turnedAway].sort(compareCurrent).map(entry);
}
