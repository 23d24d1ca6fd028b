import { asOf, type Field } from '@furrowmark/domain';
import { judgeThing } from '@furrowmark/rules';
import { z } from 'zod';
import type { Block, Cell } from '../content.ts';
import {
  choiceText,
  dayCell,
  nameOf,
  quantityText,
  report,
  tell,
  verdictBlocks,
  type Telling,
} from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { id } from './parameters.ts';
import { recordTable } from './record-table.ts';
import { applicationTable } from './season-applications.ts';
import { texts } from './field-history-words.ts';

function fieldFacts(telling: Telling, field: Field): Block {
  const own = texts[telling.language];
  const now = asOf(field, telling.now);
  const value = (term: string, text: string | undefined): { term: string; value: string }[] =>
    text === undefined ? [] : [{ term, value: text }];
  return {
    kind: 'facts',
    items: [
      ...value(own.field, now.code),
      ...value(own.within, now.parentId === undefined ? undefined : nameOf(telling, now.parentId)),
      ...value(
        own.area,
        now.area === undefined ? telling.words.notRecorded : quantityText(telling, now.area, telling.now),
      ),
      ...value(own.land, own.status[now.landStatus]),
      ...value(own.prohibited, now.lastProhibitedOn ?? own.noneKnown),
      ...value(own.buffer, now.buffer ?? telling.words.notRecorded),
      ...value(own.ownedBy, now.ownedBy && choiceText(telling, 'ownedBy', now.ownedBy)),
    ],
  };
}

function plantings(telling: Telling, ground: ReadonlySet<string>): Block {
  const own = texts[telling.language];
  const rows = telling.season
    .plantings()
    .filter(({ started }) => ground.has(started.data.fieldId))
    .toSorted((a, b) => a.standsFrom - b.standsFrom)
    .map((planting): Cell[] => [
      { text: planting.started.data.crop },
      { text: nameOf(telling, planting.started.data.fieldId) },
      dayCell(telling, planting.standsFrom),
      planting.standsUntil === null ? { text: own.standing, value: null } : dayCell(telling, planting.standsUntil),
    ]);
  return {
    kind: 'table',
    name: 'plantings',
    caption: '',
    empty: own.noPlantings,
    columns: [
      { key: 'crop', label: own.crop, type: 'text' },
      { key: 'where', label: own.where, type: 'text' },
      { key: 'from', label: own.from, type: 'date' },
      { key: 'to', label: own.to, type: 'date' },
    ],
    rows,
  };
}

function historyBlocks(telling: Telling, field: Field): Block[] {
  const own = texts[telling.language];
  const { season, now } = telling;
  const ground = season.sameGround(field.id);
  const pairs = season
    .applications()
    .toSorted((a, b) => a.started.at - b.started.at)
    .flatMap((application) =>
      application.targets
        .filter(({ fieldId }) => fieldId !== undefined && ground.has(fieldId))
        .map((target) => [application, target] as const),
    );
  const harvests = season.harvests().filter(({ fieldId }) => ground.has(fieldId));
  const records = [
    ...new Map([...ground].flatMap((each) => season.everAbout(each)).map((record) => [record.id, record])).values(),
  ];
  return [
    fieldFacts(telling, field),
    { kind: 'heading', level: 2, text: own.plantings },
    plantings(telling, ground),
    { kind: 'heading', level: 2, text: own.applications },
    ...applicationTable(telling, 'applications', pairs),
    { kind: 'heading', level: 2, text: own.harvests },
    recordTable(
      telling,
      'harvests',
      harvests.map(({ record }) => record),
    ),
    ...verdictBlocks(telling, judgeThing(season, { kind: 'field', id: field.id }, now)),
    { kind: 'heading', level: 2, text: own.everything },
    recordTable(
      telling,
      'records',
      records.toSorted((a, b) => a.at.at - b.at.at || a.seq - b.seq),
    ),
  ];
}

/** A field through all its years: status, buffer, exposures, plantings, applications, harvests. */
export const fieldHistory = defineReport({
  kind: 'field-history',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: z.strictObject({ field: id }),
  content(season, { field: fieldId }, given) {
    const field = season.field(fieldId);
    if (field === undefined) return null;
    const telling = tell(season, given);
    const title = texts[telling.language].of(field.registered.code);
    return report(telling, { kind: 'field-history', title }, historyBlocks(telling, field));
  },
});
