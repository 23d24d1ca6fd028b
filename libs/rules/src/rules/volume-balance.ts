import { z } from 'zod';
import { broken, met, notApplicable, unknown } from '../engine/judgement.ts';
import { percent } from '../engine/parameter.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { recordIdsOf } from '../judging/draws.ts';
import { say } from '../words/index.ts';

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
  parameters: () => z.object({ limitPercent: percent(10, 'Difference let stand, of what was filled in.') }),
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
      if (base.lte(0)) return notApplicable(book, say('common.noFill'));
      const share = (part: { toNumber(): number }): number => (part.toNumber() / base.toNumber()) * 100;
      // More taken out than was ever in is known before the batch is closed.
      const out = volume.drawnL.plus(volume.suppliedL).plus(volume.lostL).plus(volume.disposedL);
      const over = out.minus(base);
      if (over.times(100).gt(base.times(limit))) {
        return broken(
          book,
          say('volume-balance.moreOut', { over: over.toNumber(), percent: share(over), base: base.toNumber(), limit }),
          {
            figures: [
              { name: 'unaccountedL', value: -over.toNumber(), unit: 'L' },
              { name: 'unaccountedPercent', value: -share(over), unit: '%', limit },
            ],
            recordIds,
          },
        );
      }
      if (closed === null) return notApplicable(book, say('volume-balance.notClosed'));
      const open = volume.unaccountedL;
      const beyond = open.abs().times(100).gt(base.times(limit));
      const evidence = {
        figures: [
          { name: 'unaccountedL', value: open.toNumber(), unit: 'L' },
          { name: 'unaccountedPercent', value: share(open), unit: '%', limit },
        ],
        recordIds,
      };
      if (beyond && volume.remainingL === null) {
        return unknown(
          book,
          say('volume-balance.restUnknown', { open: open.toNumber(), base: base.toNumber() }),
          evidence,
        );
      }
      const said = say('volume-balance.said', {
        open: open.abs().toNumber(),
        base: base.toNumber(),
        percent: Math.abs(share(open)),
        way: open.lt(0) ? say('volume-balance.moreThan') : say('volume-balance.unaccounted'),
        limit,
      });
      return beyond ? broken(book, said, evidence) : met(book, said, evidence);
    },
  },
});
