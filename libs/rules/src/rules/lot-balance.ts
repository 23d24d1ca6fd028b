import { asOf, decimal, type Decimal, type Lot, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, met, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { leftOpen, percent } from '../engine/parameter.ts';
import { pileRecords, tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { unitWords } from '../judging/reading.ts';
import { timeOf } from '../judging/when.ts';
import { say, type Said } from '../words/index.ts';

const bulkUnits = new Set(['[cyd_i]', '[cft_i]', 'm3', '[bu_us]']);

/** Bulk goods and what is measured by the bucket are known less well than bags and drums. */
function isBulk(season: Season, lot: Lot): boolean {
  const material = season.material(lot.materialId);
  const kind = material === undefined ? null : asOf(material, lot.at.at).kind;
  return (
    kind === 'compost' ||
    kind === 'vermicompost' ||
    lot.origin.kind === 'pile' ||
    bulkUnits.has(lot.quantity.unit) ||
    lot.movements.some(({ quantity }) => quantity.unit === '{measure}')
  );
}

/** Running balance of a lot, and what counting found. */
export const lotBalance = defineRule({
  id: 'lot-balance',
  revision: 2,
  title: 'Lot accounted for',
  reason:
    'What came in has to account for what went out; a lot used beyond what was received is the first thing a mass balance shows. Weighing and scooping are never exact, so a small difference is let stand.',
  basis: 'regulation',
  citation:
    '7 CFR 205.403(d)(4) (88 FR 3548), read 2026-11-25; it names no tolerance: the percentages are common practice, no source',
  severity: 'minor',
  packs: ['us-organic'],
  parameters: () =>
    z.object({
      packagedPercent: leftOpen(
        'atMost',
        percent(2, 'Difference let stand for bagged and liquid lots, of what was received.'),
      ),
      bulkPercent: leftOpen(
        'atMost',
        percent(15, 'Difference let stand for bulk lots and lots measured by the bucket, of what was received.'),
      ),
    }),
  chosenAt: 'the movement',
  looksAt: {
    kinds: ['lot', 'batch', 'application', 'pile', 'material'],
    records: [...tankRecords, ...pileRecords, 'lot.counted', 'lot.disposed', 'vessel.cleaned', 'equipment.cleaned'],
  },
  judge: {
    lot(lot, { limits, season }) {
      const bulk = isBulk(season, lot);
      const unitCode = season.unitOfLot(lot.id) ?? lot.quantity.unit;
      const unit = unitWords(unitCode);
      const words = (amount: Decimal): Said => say('reading.figure', { value: amount.toNumber(), unit });
      const received = lot.movements.find(({ kind }) => kind === 'received')?.amount ?? decimal(lot.quantity.value);
      let balance: Decimal = decimal(0);
      let lowest: Decimal | null = null;
      const judgements: Judgement[] = [];
      const unread: string[] = [];
      for (const move of lot.movements) {
        const book = limits(move.at.at);
        const share = bulk ? book.parameters.bulkPercent : book.parameters.packagedPercent;
        if (move.amount === null) {
          unread.push(move.recordId);
          continue;
        }
        const tolerance = (): Decimal => received.times(share).div(100);
        if (move.kind === 'counted') {
          const gap = move.amount.minus(balance).abs();
          const evidence = {
            figures: [
              {
                name: 'countDifference',
                value: move.amount.minus(balance).toNumber(),
                unit: unitCode,
                limit: tolerance().toNumber(),
              },
            ],
            recordIds: [move.recordId],
            since: move.at.at,
          };
          const said = say('lot-balance.counted', {
            counted: words(move.amount),
            at: timeOf(season, move.at.at),
            balance: words(balance),
          });
          judgements.push(
            gap.gt(tolerance())
              ? broken(book, say('lot-balance.gap', { said, gap: words(gap), share }), evidence)
              : met(book, say('common.stop', { said }), evidence),
          );
          balance = move.amount;
          continue;
        }
        balance = move.kind === 'received' ? balance.plus(move.amount) : balance.minus(move.amount);
        if (lowest === null || balance.lt(lowest)) lowest = balance;
        if (balance.gte(0)) continue;
        const over = balance.abs();
        const evidence = {
          figures: [{ name: 'balance', value: balance.toNumber(), unit: unitCode, limit: 0 }],
          recordIds: [move.recordId],
          since: move.at.at,
        };
        const said = say('lot-balance.tooMuch', { code: lot.code, over: words(over), at: timeOf(season, move.at.at) });
        judgements.push(
          over.gt(tolerance())
            ? broken(book, say('common.stop', { said }), evidence)
            : caution(book, say('lot-balance.letStand', { said, share }), evidence),
        );
      }
      const book = limits(lot.at.at);
      const evidence = {
        figures: [{ name: 'balance', value: balance.toNumber(), unit: unitCode, limit: 0 }],
        recordIds: lot.movements.map(({ recordId }) => recordId),
      };
      const verdict = worst(judgements, (n) => say('lot-balance.more', { n }));
      if (verdict?.outcome === 'broken') return verdict;
      if (unread.length > 0) {
        return unknown(book, say('lot-balance.unread', { n: unread.length, unit }), { ...evidence, recordIds: unread });
      }
      return (
        verdict ?? met(book, say('lot-balance.left', { left: words(balance), received: words(received) }), evidence)
      );
    },
  },
});
