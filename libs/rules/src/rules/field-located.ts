import { asOf, type Field, type Season } from '@furrowmark/domain';
import { z } from 'zod';
import { met, notApplicable, unknown } from '../engine/judgement.ts';
import { groundRecords } from '../engine/looks-at.ts';
import { defineRule } from '../engine/rule.ts';
import { say } from '../words/index.ts';

/** The field itself, or the one around it, whose boundary was drawn; undefined where none was. */
function drawn(season: Season, field: Field): Field | undefined {
  const seen = new Set<string>();
  let each: Field | undefined = field;
  while (each !== undefined && !seen.has(each.id)) {
    seen.add(each.id);
    const now: Field['registered'] = asOf(each, Infinity);
    if (now.boundary !== undefined) return each;
    each = now.parentId === undefined ? undefined : season.field(now.parentId);
  }
  return undefined;
}

/** Growing areas of harvested ground, with their coordinates. */
export const fieldLocated = defineRule({
  id: 'field-located',
  revision: 1,
  title: 'Field drawn on the map',
  reason:
    'For foods on the traceability list the farm map shows each growing area with its coordinates. With it a harvest is found on the ground by somebody who has never been there.',
  basis: 'regulation',
  citation: '21 CFR 1.1315(a)(5), read 2026-11-25',
  severity: 'notice',
  packs: ['traceability-list'],
  parameters: () => z.object({}),
  chosenAt: 'the first harvest',
  looksAt: { kinds: ['field', 'harvest'], records: [...groundRecords] },
  judge: {
    field(field, { limits, season, reach, now }) {
      const [first] = reach.harvestsOn(field.id);
      const book = limits(first?.at.at ?? now);
      const { code } = asOf(field, Infinity);
      const recordIds = field.recordIds;
      const where = drawn(season, field);
      if (where !== undefined) {
        const around =
          where.id === field.id ? code : say('field-located.around', { code: asOf(where, Infinity).code, inner: code });
        return met(book, say('field-located.drawn', { around }), { recordIds });
      }
      if (first === undefined) return notApplicable(book, say('field-located.noHarvest'));
      return unknown(book, say('field-located.notDrawn', { code }), { recordIds });
    },
  },
});
