import { asOf, type Field } from '@furrowmark/domain';
import type { Block, Cell } from '../content.ts';
import { centreOf, metresBetween } from '../exchange/field-geometry.ts';
import { choiceText, dayCell, nameOf, quantityText, report, tell, type Telling } from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { texts } from './neighbours-and-buffers-words.ts';

/** Metres within which another field counts as a neighbour: it bears on spray drift. Common practice, no source. */
const near = 60;

type Land = ReturnType<typeof landOf>;
const landOf = ({ now }: Telling, field: Field) => ({ id: field.id, ...asOf(field, now) });

function fieldTable(telling: Telling, lands: readonly Land[]): Block {
  const own = texts[telling.language];
  const rows = lands.map((land): Cell[] => {
    const centre = land.boundary === undefined ? null : centreOf(land.boundary);
    return [
      { text: land.code },
      { text: own.land[land.landStatus], value: land.landStatus },
      { text: land.buffer === undefined || land.buffer === '' ? own.notRecorded : land.buffer },
      { text: land.ownedBy === undefined ? '–' : choiceText(telling, 'ownedBy', land.ownedBy) },
      land.area === undefined ? { text: '–', value: null } : { text: quantityText(telling, land.area, telling.now) },
      centre === null
        ? { text: own.noOutline, value: null }
        : { text: `${centre[1].toFixed(5)}, ${centre[0].toFixed(5)}` },
    ];
  });
  return {
    kind: 'table',
    name: 'fields',
    caption: own.fields,
    empty: own.noFields,
    columns: [
      { key: 'field', label: own.field, type: 'text' },
      { key: 'landStatus', label: own.status, type: 'text' },
      { key: 'buffer', label: own.buffer, type: 'text' },
      { key: 'ownedBy', label: own.ownedBy, type: 'text' },
      { key: 'area', label: own.area, type: 'text' },
      { key: 'centre', label: own.centre, type: 'text' },
    ],
    rows,
  };
}

/** Pairs of an organic or transition field and another land near it that is not of the same status. */
function neighbourTable(telling: Telling, lands: readonly Land[]): Block {
  const own = texts[telling.language];
  const rows = lands
    .filter(({ landStatus }) => landStatus !== 'conventional')
    .flatMap((land) =>
      lands
        .filter((other) => other.id !== land.id && other.landStatus !== land.landStatus)
        .filter((other) => other.parentId !== land.id && land.parentId !== other.id)
        .flatMap((other): { readonly metres: number; readonly row: Cell[] }[] => {
          if (land.boundary === undefined || other.boundary === undefined) return [];
          const metres = Math.round(metresBetween(land.boundary, other.boundary));
          if (metres > near) return [];
          const buffer = land.buffer === undefined || land.buffer === '' ? own.notRecorded : land.buffer;
          return [
            {
              metres,
              row: [
                { text: land.code },
                { text: other.code },
                { text: own.land[other.landStatus], value: other.landStatus },
                { text: String(metres), value: metres },
                { text: buffer },
              ],
            },
          ];
        }),
    )
    .toSorted((a, b) => a.metres - b.metres)
    .map(({ row }) => row);
  return {
    kind: 'table',
    name: 'neighbours',
    caption: own.neighbours(near),
    empty: own.noNeighbours,
    columns: [
      { key: 'field', label: own.field, type: 'text' },
      { key: 'neighbour', label: own.neighbour, type: 'text' },
      { key: 'neighbourStatus', label: own.status, type: 'text' },
      { key: 'metres', label: own.metres, type: 'number' },
      { key: 'buffer', label: own.buffer, type: 'text' },
    ],
    rows,
  };
}

function exposureTable(telling: Telling, time: Period): Block {
  const own = texts[telling.language];
  const rows = telling.season
    .ofType('field.exposed')
    .filter(({ at }) => isWithin(time, at.at))
    .map((record): Cell[] => [
      dayCell(telling, record.at.at),
      { text: nameOf(telling, record.data.fieldId) },
      { text: record.data.substance },
      { text: own.how[record.data.how], value: record.data.how },
      record.data.area === undefined
        ? { text: '–', value: null }
        : { text: quantityText(telling, record.data.area, record.at.at) },
    ]);
  return {
    kind: 'table',
    name: 'exposures',
    caption: own.exposures,
    empty: own.noExposures,
    columns: [
      { key: 'date', label: own.date, type: 'date' },
      { key: 'field', label: own.field, type: 'text' },
      { key: 'substance', label: own.substance, type: 'text' },
      { key: 'how', label: own.reached, type: 'text' },
      { key: 'area', label: own.area, type: 'text' },
    ],
    rows,
  };
}

/** The fields of a period with their buffers, the land near them, and what reached a field that should not have. */
export function neighbourBlocks(telling: Telling, time: Period): Block[] {
  const { season } = telling;
  const own = texts[telling.language];
  const lands = season
    .fields()
    .filter(({ retired }) => retired === undefined || retired.at >= time.start)
    .map((field) => landOf(telling, field))
    .toSorted((a, b) => a.code.localeCompare(b.code));
  const open = lands.filter(
    ({ landStatus, buffer }) => landStatus !== 'conventional' && (buffer === undefined || buffer === ''),
  );
  const drawn = lands.filter(({ boundary }) => boundary === undefined);
  return [
    { kind: 'paragraph', text: own.intro },
    ...(open.length === 0
      ? []
      : [{ kind: 'note' as const, tone: 'info' as const, text: own.open(open.map(({ code }) => code).join(', ')) }]),
    ...(drawn.length === 0
      ? []
      : [
          {
            kind: 'note' as const,
            tone: 'info' as const,
            text: own.undrawn(drawn.map(({ code }) => code).join(', ')),
          },
        ]),
    fieldTable(telling, lands),
    neighbourTable(telling, lands),
    exposureTable(telling, time),
  ];
}

/**
 * Distinct boundaries and buffers (7 CFR 205.202(c)): each field with its buffer and where it lies, other land near it as
 * far as outlines are recorded, and what reached a field that should not have.
 */
export const neighboursAndBuffers = defineReport({
  kind: 'neighbours-and-buffers',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const time = periodOf(telling, parameters);
    const { title } = texts[telling.language];
    return report(
      telling,
      { kind: 'neighbours-and-buffers', title, period: { from: time.from, to: time.to } },
      neighbourBlocks(telling, time),
    );
  },
});
