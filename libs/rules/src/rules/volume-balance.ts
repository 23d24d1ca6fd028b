import { z } from 'zod';
import { broken, met, notApplicable, unknown } from '../engine/judgement.ts';
import { percent } from '../engine/parameter.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { recordIdsOf } from '../judging/draws.ts';
import { figureWords } from '../judging/when.ts';

/** Filled + put back = drawn + supplied + lost + disposed + remaining, within a tolerance. */
export const volumeBalance = defineRule({
  id: 'volume-balance',
  revision: 1,
  title: 'Volume accounted for',
  reason:
    'What was filled in has to have gone somewhere: on a field, over the rim, down a ditch. A gap hides an application that nobody wrote down.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'notice',
  packs: ['practice'],
  parameters: z.object({ limitPercent: percent(10, 'Difference let stand, of what was filled in.') }),
  chosenAt: 'the closing',
  looksAt: {
    kinds: ['batch', 'application'],
    records: [...tankRecords],
  },
  judge: {
    batch(batch, { limits, now }) {
      const { volume, closed } = batch;
      const book = limits(closed?.at.at ?? batch.fills[0]?.finished.at ?? now);
      const limit = book.parameters.limitPercent;
      const base = volume.filledL.plus(volume.putBackL);
      const recordIds = recordIdsOf(
        batch,
        'batch.filled',
        'batch.drawn',
        'application.made',
        'batch.lost',
        'batch.disposed',
        'tea.supplied',
        'tea.received',
        'batch.closed',
      );
      if (base.lte(0)) return notApplicable(book, 'No fill is recorded yet.');
      const share = (part: { toNumber(): number }): number => (part.toNumber() / base.toNumber()) * 100;
      // More taken out than was ever in is known before the batch is closed.
      const out = volume.drawnL.plus(volume.suppliedL).plus(volume.lostL).plus(volume.disposedL);
      const over = out.minus(base);
      if (over.times(100).gt(base.times(limit))) {
        return broken(
          book,
          `${figureWords(over.toNumber())} L more were taken out than were put in, ${figureWords(share(over))} % of ${figureWords(base.toNumber())} L; ${figureWords(limit)} % is let stand.`,
          {
            figures: [
              { name: 'unaccountedL', value: -over.toNumber(), unit: 'L' },
              { name: 'unaccountedPercent', value: -share(over), unit: '%', limit },
            ],
            recordIds,
          },
        );
      }
      if (closed === null) return notApplicable(book, 'The account is drawn up when the batch is closed.');
      const open = volume.unaccountedL;
      const beyond = open.abs().times(100).gt(base.times(limit));
      const evidence = {
        figures: [
          { name: 'unaccountedL', value: open.toNumber(), unit: 'L' },
          { name: 'unaccountedPercent', value: share(open), unit: '%', limit },
        ],
        recordIds,
      };
      if (beyond && volume.remainingL === null && open.gt(0)) {
        return unknown(
          book,
          `${figureWords(open.toNumber())} of ${figureWords(base.toNumber())} L are not accounted for, and how much was left at the closing is not recorded.`,
          evidence,
        );
      }
      const said = `${figureWords(open.abs().toNumber())} of ${figureWords(base.toNumber())} L (${figureWords(Math.abs(share(open)))} %) are ${open.lt(0) ? 'more than was filled in' : 'not accounted for'}; ${figureWords(limit)} % is let stand.`;
      return beyond ? broken(book, said, evidence) : met(book, said, evidence);
    },
  },
});
