import { endOfDay } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, caution, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { tankRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { cleanedBetween } from '../judging/cleaned-between.ts';
import { either, notBefore, type Order } from '../judging/order-unsure.ts';
import { dayOf } from '../judging/water.ts';
import { timeOf } from '../judging/when.ts';
import { say } from '../words/index.ts';

const carriesTea: ReadonlySet<string> = new Set(['sprayer', 'injector', 'drench', 'spreader']);

/** Equipment cleaned after it was used for something else, before tea went through it. */
export const equipmentClean = defineRule({
  id: 'equipment-clean',
  revision: 2,
  title: 'Equipment cleaned after other use',
  reason:
    'A sprayer that carried something else carries the rest of it into the tea and onto organic ground. That it was cleaned in between is shown by a record, not by memory.',
  basis: 'practice',
  citation:
    'common practice, no source; contact of organic crops with prohibited substances: 7 CFR 205.202, as of 2026-03-24, read 2026-11-26',
  severity: 'minor',
  packs: ['practice'],
  parameters: () => z.object({}),
  brokenWord: { en: 'not cleaned', es: 'sin lavar' },
  owes: {
    /** When tea goes through it next nobody has recorded: it is asked for from the day of the other use on. */
    equipment({ registered, retired, uses, cleanings }, { season }) {
      const use = uses.at(-1);
      if (!carriesTea.has(registered.kind) || use === undefined || retired !== undefined) return null;
      if (cleanings.some(({ at }) => at.from >= use.at.to)) return null;
      return { at: endOfDay(dayOf(season, use.at.at), season.timeZone), what: say('due.cleanEquipment') };
    },
  },
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
        const usedBefore = (how: Order): Judgement => {
          const use = equipment.uses.findLast(({ at }) => notBefore(how, started, at));
          if (use === undefined)
            return met(book, say('equipment-clean.noOther', { code }), { recordIds: [application.record.id] });
          const said = say('equipment-clean.used', { code, what: use.data.what, at: timeOf(season, use.at.at) });
          const between = cleanedBetween(equipment.cleanings, use.at, started);
          if (between !== null) {
            const { cleaning, sure } = between;
            const evidence = { recordIds: [application.record.id, use.id, cleaning.id] };
            return !sure
              ? unknown(book, say('equipment-clean.unsure', { said }), evidence)
              : cleaning.data.rinsed
                ? met(book, say('equipment-clean.cleaned', { said }), evidence)
                : caution(book, say('equipment-clean.notRinsed', { said }), evidence);
          }
          const recordIds = [application.record.id, use.id];
          const what = use.data.prohibited === 'yes' ? say('equipment-clean.prohibited') : null;
          return broken(book, say('equipment-clean.notCleaned', { said, what }), { recordIds });
        };
        return [either<Order>('asRecorded', ['surely', 'perhaps'], usedBefore)];
      });
      return worst(judgements) ?? notApplicable(book, say('equipment-clean.none'));
    },
  },
});
