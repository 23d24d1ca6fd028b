import { z } from 'zod';
import { broken, caution, met, notApplicable, worst } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { after, either, notBefore, type Order } from '../judging/order-unsure.ts';
import { timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

const foul: ReadonlySet<string | undefined> = new Set(['sour', 'rotten']);
const sound: ReadonlySet<string | undefined> = new Set(['earthy', 'sweet', 'yeasty']);

/** How the order is taken of what stands against the tea, and of what stands for it. */
interface Hand {
  readonly against: Order;
  readonly for: Order;
}
const recordedOrder: Hand = { against: 'asRecorded', for: 'asRecorded' };
const worstOrder: Hand = { against: 'perhaps', for: 'surely' };
const bestOrder: Hand = { against: 'surely', for: 'perhaps' };

/** A foul smell, and what was done with the tea afterwards. */
export const odourSound = defineRule({
  id: 'odour-sound',
  revision: 3,
  title: 'Smells sound, or was dumped',
  reason:
    'A sour or rotten smell says that the tea has gone without oxygen, whatever the meter shows. Such tea can harm plants and is dumped, not sprayed.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'major',
  packs: ['practice'],
  parameters: () => z.object({}),
  brokenWord: { en: 'not dumped', es: 'no se tiró' },
  chosenAt: 'the check',
  looksAt: {
    kinds: ['batch', 'application'],
    records: [...tankRecords, 'batch.checked'],
  },
  judge: {
    batch(batch, { limits, now, season }) {
      const smelled = batch.checks.filter(({ data }) => data.odour !== undefined);
      const first = smelled[0];
      if (first === undefined) return notApplicable(limits(batch.brewStart?.at ?? now), say('odour-sound.none'));
      // Each time that it turned foul; it can turn again after it smelled sound.
      const turns = smelled.filter(
        ({ data }, i) => foul.has(data.odour) && !(i > 0 && foul.has(smelled[i - 1]?.data.odour)),
      );
      if (turns.length === 0)
        return met(limits(first.at.at), say('odour-sound.sound'), { recordIds: smelled.map(({ id }) => id) });
      const judgements = turns.map((bad) => {
        const book = limits(bad.at.at);
        const said = say('odour-sound.foul', {
          odour: say(`odour-sound.${bad.data.odour ?? 'sour'}`),
          at: timeOf(season, bad.at.at),
        });
        return either<Hand>(recordedOrder, [worstOrder, bestOrder], (how) => {
          const used = batch.draws.filter(
            (draw) => draw.applicationId !== null && notBefore(how.against, draw.at, bad.at),
          );
          const supplied = batch.losses.filter(
            ({ kind, at }) => kind === 'supplied' && notBefore(how.against, at, bad.at),
          );
          const out = [...used.flatMap(({ recordIds }) => recordIds), ...supplied.map(({ recordId }) => recordId)];
          if (out.length > 0) {
            const again = smelled.find(
              ({ at, data }) =>
                sound.has(data.odour) &&
                after(how.for, at, bad.at) &&
                [...used, ...supplied].every((each) => notBefore(how.for, each.at, at)),
            );
            return again === undefined
              ? broken(book, say('odour-sound.used', { said }), { recordIds: [bad.id, ...out] })
              : caution(
                  book,
                  say('odour-sound.soundAgain', {
                    said,
                    odour: say(`odour-sound.${again.data.odour ?? 'earthy'}`),
                    again: timeOf(season, again.at.at),
                  }),
                  { recordIds: [bad.id, again.id, ...out] },
                );
          }
          const dumped = [
            ...batch.losses
              .filter(({ kind, at }) => kind === 'disposed' && notBefore(how.for, at, bad.at))
              .map(({ recordId }) => recordId),
            ...batch.draws.flatMap(({ ended }) =>
              ended
                .filter(({ fate, at }) => fate === 'dumped' && notBefore(how.for, at, bad.at))
                .map(({ recordId }) => recordId),
            ),
          ];
          return dumped.length > 0
            ? met(book, say('odour-sound.dumped', { said }), { recordIds: [bad.id, ...dumped] })
            : caution(book, say('odour-sound.dump', { said }), { recordIds: [bad.id] });
        });
      });
      return worst(judgements);
    },
  },
});
