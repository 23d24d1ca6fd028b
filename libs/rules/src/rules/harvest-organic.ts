import { addMonths, asOf, type Field, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { broken, met, notApplicable, unknown, worst, type Judgement } from '../engine/judgement.ts';
import { byRegulation, months } from '../engine/parameter.ts';
import { groundRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { atEitherEnd } from '../judging/at-either-end.ts';
import { dayOf } from '../judging/water.ts';
import { say, type Said } from '../words/index.ts';

interface Exposure {
  readonly on: string;
  readonly what: string | Said;
  readonly drift: boolean;
  readonly recordIds: readonly string[];
}

/** The registration that the field is shown by: of several the last, its rivals before it. */
const shownRegistration = ({ recordIds, rivals }: Field): readonly string[] =>
  recordIds.slice(rivals.length, rivals.length + 1);

/** Prohibited substances on a piece of ground up to a day: as registered, and as they happened. */
function exposuresOf(season: Season, field: Field, at: number): readonly Exposure[] {
  const day = dayOf(season, at);
  const dates = [
    { on: field.registered.lastProhibitedOn, recordIds: shownRegistration(field) },
    ...field.revisions
      .filter(({ from }) => from <= at)
      .map(({ changes, recordId }) => ({ on: changes.lastProhibitedOn, recordIds: [recordId] })),
  ];
  const registered = dates.flatMap(({ on, recordIds }): Exposure[] =>
    on === undefined || on > day ? [] : [{ on, what: say('harvest-organic.substance'), drift: false, recordIds }],
  );
  const happened = field.exposures
    .filter((each) => each.at.at <= at)
    .map((each) => ({
      on: dayOf(season, each.at.at),
      what: each.data.substance,
      drift: each.data.how === 'drift',
      recordIds: [each.id],
    }));
  return [...registered, ...happened];
}

/** A harvest sold as organic, against the three years of its ground. */
export const harvestOrganic = defineRule({
  id: 'harvest-organic',
  revision: 4,
  title: 'Three years without prohibited substances',
  reason:
    'Ground is organic only when nothing prohibited was applied to it for three years before the harvest. The harvest is where it counts: that is what is sold under the word.',
  basis: 'regulation',
  citation: '7 CFR 205.202(b), read 2026-11-25',
  severity: 'major',
  packs: ['us-organic'],
  parameters: () =>
    z.object({
      months: byRegulation('atLeast', months(36, 'Months since the last prohibited substance.')),
    }),
  chosenAt: 'the harvest',
  looksAt: {
    kinds: ['harvest', 'field'],
    records: [...groundRecords, 'field.exposed'],
  },
  judge: {
    harvest(harvest, { limits, season }) {
      const book = limits(harvest.at.at);
      const { soldAs } = harvest.record.data;
      if (soldAs !== 'organic') return notApplicable(book, say('harvest-organic.notOrganic'));
      const own = season.field(harvest.fieldId);
      const recordIds = [harvest.record.id];
      if (own === undefined) return unknown(book, say('harvest-organic.fieldUnknown'), { recordIds });
      return atEitherEnd(harvest.at, (at) => {
        const day = dayOf(season, at);
        const status = asOf(own, at).landStatus;
        const judgements: Judgement[] = [];
        if (status !== 'organic') {
          judgements.push(
            broken(
              book,
              say('harvest-organic.status', {
                code: asOf(own, at).code,
                status:
                  status === 'transition' ? say('harvest-organic.transition') : say('harvest-organic.conventional'),
                day,
              }),
              { recordIds: [...recordIds, ...own.recordIds] },
            ),
          );
        }
        for (const id of season.sameGround(harvest.fieldId)) {
          const field = season.field(id);
          if (field === undefined) continue;
          for (const exposure of exposuresOf(season, field, at)) {
            const free = addMonths(exposure.on, book.parameters.months);
            if (free <= day) continue;
            const { what: substance, on } = exposure;
            const where = { substance, code: asOf(field, at).code };
            const said = say('harvest-organic.exposed', {
              said: exposure.drift ? say('exposed.drift', where) : say('exposed.applied', where),
              on,
              free,
              day,
            });
            const evidence = {
              figures: [
                { name: 'freeFrom', value: free },
                { name: 'harvestedOn', value: day },
              ],
              recordIds: [...recordIds, ...exposure.recordIds],
            };
            judgements.push(
              exposure.drift
                ? unknown(book, say('harvest-organic.drift', { said }), evidence)
                : broken(book, said, evidence),
            );
          }
        }
        return (
          worst(judgements) ??
          met(book, say('harvest-organic.none', { months: book.parameters.months, day }), { recordIds })
        );
      });
    },
  },
});
