import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { Batch } from '../facts/types.ts';
import type { LogRecord } from '../records/record.ts';
import { naiveBatches } from '../testing/naive.ts';
import { randomSeason } from '../testing/randomSeason.ts';
import { openSeason, type OpenSeason } from './season.ts';

/** The real fold's facts in the words of the naive one. */
function summary(season: OpenSeason): Record<string, unknown> {
  return Object.fromEntries(season.batches().map((batch) => [batch.id, summaryOf(batch)]));
}

function summaryOf(batch: Batch) {
  const { volume } = batch;
  return {
    code: batch.code,
    phase: batch.phase,
    brewStart: batch.brewStart?.at ?? null,
    airOff: batch.airOff?.at ?? null,
    topUps: batch.topUps.map((each): string => each.recordId).sort(),
    interruptions: batch.interruptions.map(({ stopped, restarted, duringBrew, checkedAfter }) => ({
      stopped: stopped.at,
      restarted: restarted?.at ?? null,
      duringBrew,
      checkedAfter,
    })),
    draws: batch.draws.map((draw) => ({
      id: draw.id,
      at: draw.at.at,
      litres: draw.litres?.toFixed(),
      share: draw.shareOfTank,
      lots: Object.fromEntries(draw.lots.map(({ lotId, amount }) => [lotId, amount.toFixed()])),
      brewHours: draw.brewHours?.value ?? null,
      holdHours: draw.holdHours?.value ?? null,
      applicationId: draw.applicationId,
    })),
    content: batch.content.map((each) => each.litres.toFixed()),
    drawnL: volume.drawnL.toFixed(),
    lostL: volume.lostL.toFixed(),
    disposedL: volume.disposedL.toFixed(),
    suppliedL: volume.suppliedL.toFixed(),
    waterL: volume.filledL.minus(volume.carriedInL).toFixed(),
    lots: Object.fromEntries(
      [...batch.lotAccount]
        .sort((a, b) => (a.lotId < b.lotId ? -1 : 1))
        .map(({ lotId, added, drawn, lost, left }) => [
          lotId,
          [added, drawn, lost, left].map((each) => each.toFixed()),
        ]),
    ),
  };
}

/** Everything a batch's facts say, as text. */
function everything(batch: Batch): string {
  return JSON.stringify(batch);
}

function shuffled<T>(items: readonly T[], keys: readonly number[]): T[] {
  return items
    .map((item, i) => ({ item, key: keys[i] ?? 0 }))
    .sort((a, b) => a.key - b.key)
    .map((each) => each.item);
}

const keys = fc.array(fc.nat(), { minLength: 80, maxLength: 80 });

describe('a season folded as its records come', () => {
  it('says after every record what the naive fold says, and names every batch whose facts changed', () => {
    fc.assert(
      fc.property(randomSeason, keys, (records, order) => {
        const season = openSeason();
        const here: LogRecord[] = [];
        let before = new Map<string, string>();
        for (const record of shuffled(records, order)) {
          here.push(record);
          const { batches } = season.add([record]);
          expect(summary(season)).toEqual(naiveBatches(here));
          const after = new Map(season.batches().map((batch): [string, string] => [batch.id, everything(batch)]));
          for (const [id, facts] of after) {
            if (before.get(id) !== facts) expect([...batches]).toContain(id);
          }
          before = after;
        }
      }),
      { numRuns: 40 },
    );
  });

  it('ends the same whatever the order, split into requests, and sent twice', () => {
    fc.assert(
      fc.property(randomSeason, keys, fc.integer({ min: 1, max: 7 }), (records, order, size) => {
        const whole = openSeason(records);
        const parts = openSeason();
        const mixed = shuffled(records, order);
        for (let i = 0; i < mixed.length; i += size) {
          parts.add(mixed.slice(i, i + size));
          parts.add(mixed.slice(Math.max(0, i - 2), i + size));
        }
        expect(parts.batches().map(everything)).toEqual(whole.batches().map(everything));
        expect(JSON.stringify(parts.lots())).toBe(JSON.stringify(whole.lots()));
        expect(JSON.stringify(parts.applications())).toBe(JSON.stringify(whole.applications()));
      }),
      { numRuns: 60 },
    );
  });

  it('accounts for every lot and litre to the last digit', () => {
    fc.assert(
      fc.property(randomSeason, (records) => {
        for (const batch of openSeason(records).batches()) {
          for (const { added, drawn, lost, left } of batch.lotAccount) {
            expect(drawn.plus(lost).plus(left).toFixed()).toBe(added.toFixed());
          }
          for (const draw of batch.draws) {
            expect(draw.parcels.every((each) => each.share.gte(0) && each.share.lte(1))).toBe(true);
          }
          const v = batch.volume;
          const out = [v.drawnL, v.suppliedL, v.lostL, v.disposedL, v.unaccountedL].reduce((a, b) => a.plus(b));
          const left = batch.closed === null ? (batch.content.at(-1)?.litres ?? v.lostL.minus(v.lostL)) : v.remainingL;
          expect(out.plus(left ?? 0).toFixed()).toBe(v.filledL.plus(v.putBackL).toFixed());
        }
      }),
      { numRuns: 100 },
    );
  });
});
