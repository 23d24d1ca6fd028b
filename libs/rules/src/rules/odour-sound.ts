import { z } from 'zod';
import { broken, caution, met, notApplicable } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

const foul: ReadonlySet<string | undefined> = new Set(['sour', 'rotten']);
const sound: ReadonlySet<string | undefined> = new Set(['earthy', 'sweet', 'yeasty']);

/** A foul smell, and what was done with the tea afterwards. */
export const odourSound = defineRule({
  id: 'odour-sound',
  revision: 1,
  title: 'Smells sound, or was dumped',
  reason:
    'A sour or rotten smell says that the tea has gone without oxygen, whatever the meter shows. Such tea can harm plants and is dumped, not sprayed.',
  basis: 'practice',
  citation: 'common practice, no source',
  severity: 'major',
  packs: ['practice'],
  parameters: z.object({}),
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
      const bad = smelled.find(({ data }) => foul.has(data.odour));
      if (bad === undefined)
        return met(limits(first.at.at), say('odour-sound.sound'), { recordIds: smelled.map(({ id }) => id) });
      const book = limits(bad.at.at);
      const said = say('odour-sound.foul', {
        odour: say(`odour-sound.${bad.data.odour ?? 'sour'}`),
        at: timeOf(season, bad.at.at),
      });
      const used = batch.draws.filter((draw) => draw.applicationId !== null && draw.at.at >= bad.at.at);
      const supplied = batch.losses.filter(({ kind, at }) => kind === 'supplied' && at.at >= bad.at.at);
      const out = [...used.flatMap(({ recordIds }) => recordIds), ...supplied.map(({ recordId }) => recordId)];
      const firstOut = Math.min(...used.map(({ at }) => at.at), ...supplied.map(({ at }) => at.at));
      const again = smelled.find(({ at, data }) => at.at > bad.at.at && at.at <= firstOut && sound.has(data.odour));
      if (out.length > 0) {
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
          .filter(({ kind, at }) => kind === 'disposed' && at.at >= bad.at.at)
          .map(({ recordId }) => recordId),
        ...batch.draws.flatMap(({ ended }) =>
          ended.filter(({ fate, at }) => fate === 'dumped' && at.at >= bad.at.at).map(({ recordId }) => recordId),
        ),
      ];
      if (dumped.length > 0) return met(book, say('odour-sound.dumped', { said }), { recordIds: [bad.id, ...dumped] });
      return caution(book, say('odour-sound.dump', { said }), { recordIds: [bad.id] });
    },
  },
});
