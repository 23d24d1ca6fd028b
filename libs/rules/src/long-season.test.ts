import { parseDraft, type Draft } from '@furrowmark/domain';
import { beforeAll, describe, expect, it } from '@jest/globals';
import { checkDrafts, judgeBatch, previewRuleBook } from './index.ts';
import { longSeason } from './testing/long-season.ts';
import { at, gal, id, instant, lb, mgPerL } from './testing/season.ts';

const now = instant('2026-12-31 00:00');
const batches = 1000;

/**
 * The quickest of several tries in milliseconds of processor time: what else the machine does must not decide. The bounds
 * below are several times what the work takes; they catch what grows with the season, `npm run bench` tells how fast it is.
 */
function quickest(tries: number, work: (n: number) => void): number {
  let best = Infinity;
  for (let n = 0; n < tries; n++) {
    const start = process.cpuUsage();
    work(n);
    const { user, system } = process.cpuUsage(start);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

const draft = (type: string, when: string, data: object): Draft => {
  const parsed = parseDraft({ id: id(`draft ${type} ${when}`), type, version: 1, occurredAt: at(when), data }, { now });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problem));
  return parsed.draft;
};

describe('a season of 1,000 batches', () => {
  const builder = longSeason(batches);
  const season = builder.season();
  beforeAll(() => {
    for (const { id: batchId } of season.batches()) judgeBatch(season, batchId, now);
  });

  it('a batch is judged within a few milliseconds, whatever its probe, lots and fields were used for besides', () => {
    const all = season.batches();
    // A hundred batches at a later time each: nothing that waits for the clock is taken from before.
    const each = quickest(5, (n) => {
      for (const { id: batchId } of all.slice(0, 100)) judgeBatch(season, batchId, now + n * 60_000);
    });
    expect(each / 100).toBeLessThan(4);
  });

  it('a rule book is previewed within a few seconds', () => {
    for (const ruleId of ['hold-maximum', 'lot-balance', 'harvest-interval', 'instrument-calibrated']) {
      let changed = 0;
      const took = quickest(2, () => {
        changed = previewRuleBook(season, [{ ruleId, enabled: false }], {}, now).changed.length;
      });
      expect([ruleId, took < 3000]).toEqual([ruleId, true]);
      expect(changed).toBeGreaterThan(0);
    }
  });

  it('the word before the deed is there within some tenths of a second', () => {
    const batchId = id(`B-${batches - 1}`);
    const drafts: ((n: number) => Draft)[] = [
      (n) => draft('batch.oxygenMeasured', `10-10 10:0${n}`, { batchId, dissolvedOxygen: mgPerL(5) }),
      (n) => draft('batch.ingredientAdded', `10-10 10:1${n}`, { batchId, lotId: id('C8'), quantity: lb(5) }),
      (n) => draft('batch.filled', `10-10 10:2${n}`, { batchId, sourceId: id('W1'), volume: gal(400) }),
    ];
    for (const make of drafts) {
      let told = 0;
      const took = quickest(4, (n) => {
        told = checkDrafts(season, [make(n)], now).length;
      });
      expect(took).toBeLessThan(400);
      expect(told).toBeGreaterThan(0);
    }
  });
});
