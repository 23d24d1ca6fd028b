import { z } from 'zod';
import { broken, caution, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { timeWords } from '../judging/when.ts';

/** Equipment cleaned after it was used for something else, before tea went through it. */
export const equipmentClean = defineRule({
  id: 'equipment-clean',
  revision: 1,
  title: 'Equipment cleaned after other use',
  reason:
    'A sprayer that carried something else carries the rest of it into the tea and onto organic ground. That it was cleaned in between is shown by a record, not by memory.',
  basis: 'practice',
  citation:
    'common practice, no source; contact of organic crops with prohibited substances: 7 CFR 205.202, from memory',
  severity: 'minor',
  packs: ['practice'],
  parameters: z.object({}),
  brokenWord: { en: 'not cleaned', es: 'sin lavar' },
  chosenAt: 'the start of the application',
  looksAt: {
    kinds: ['application', 'equipment', 'batch'],
    records: [...tankRecords, 'equipment.registered', 'equipment.revised', 'equipment.used', 'equipment.cleaned'],
  },
  judge: {
    application(application, { limits, season }) {
      const book = limits(application.started.at);
      const { started } = application;
      const ids = new Set<string>();
      if (application.record.data.equipmentId !== undefined) ids.add(application.record.data.equipmentId);
      for (const { drawSubjectId } of application.loads) {
        const into = season.draw(drawSubjectId)?.draw.into;
        if (into !== undefined) ids.add(into);
      }
      const judgements = [...ids].flatMap((id): Judgement[] => {
        const equipment = season.equipment(id);
        if (equipment === undefined) return [];
        const { code } = equipment.registered;
        const use = equipment.uses.findLast(({ at }) => at.from <= started.to);
        if (use === undefined)
          return [met(book, `No other use of ${code} is recorded before.`, { recordIds: [application.record.id] })];
        const said = `${code} was used for ${use.data.what} at ${timeWords(season, use.at.at)}`;
        const surely = equipment.cleanings.findLast(({ at }) => at.from >= use.at.to && at.to <= started.from);
        const maybe = equipment.cleanings.findLast(({ at }) => at.to >= use.at.from && at.from <= started.to);
        const cleaning = surely ?? maybe;
        const recordIds = [application.record.id, use.id, ...(cleaning === undefined ? [] : [cleaning.id])];
        if (surely !== undefined) {
          return [
            surely.data.rinsed
              ? met(book, `${said} and cleaned before the tea.`, { recordIds })
              : caution(book, `${said} and cleaned before the tea, but not rinsed.`, { recordIds }),
          ];
        }
        if (maybe !== undefined)
          return [
            unknown(book, `${said}; whether it was cleaned before the tea depends on times that are not exact.`, {
              recordIds,
            }),
          ];
        const what = use.data.prohibited === 'yes' ? ', a prohibited substance,' : '';
        return [
          broken(book, `${said}${what} and no cleaning is recorded before the tea went through it.`, { recordIds }),
        ];
      });
      return worst(judgements) ?? notApplicable(book, 'No equipment is named.');
    },
  },
});
