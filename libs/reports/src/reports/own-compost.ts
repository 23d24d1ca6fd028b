import { numberIn, type Pile } from '@furrowmark/domain';
import { judgeThing } from '@furrowmark/rules';
import type { Block, Cell } from '../content.ts';
import {
  instantCell,
  lotName,
  momentText,
  numberCell,
  quantityText,
  report,
  tell,
  verdictBlocks,
  type Telling,
} from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { recordTable } from './record-table.ts';
import { texts } from './own-compost-words.ts';

function temperatures(telling: Telling, pile: Pile): Block {
  const own = texts[telling.language];
  return {
    kind: 'table',
    name: `temperatures-${pile.started.data.code}`,
    caption: own.temperatures,
    empty: own.noTemperatures,
    columns: [
      { key: 'at', label: telling.words.time(telling.zone), type: 'instant' },
      { key: 'lowestF', label: own.lowest, type: 'number' },
      { key: 'highestF', label: own.highest, type: 'number' },
      { key: 'spots', label: own.spots, type: 'text', width: 2 },
    ],
    rows: pile.temperatures.map((record): Cell[] => {
      const values = record.data.temperatures
        .map(({ value }) => numberIn(value, '[degF]'))
        .filter((value) => value !== null);
      const spots = record.data.temperatures.map(
        ({ spot, value }) => `${spot ?? '·'} ${quantityText(telling, value, record.at.at)}`,
      );
      return [
        instantCell(telling, record.at.at),
        numberCell(values.length === 0 ? null : Math.min(...values), 0, '–'),
        numberCell(values.length === 0 ? null : Math.max(...values), 0, '–'),
        { text: spots.join('; ') },
      ];
    }),
  };
}

function pileBlocks(telling: Telling, pile: Pile): Block[] {
  const own = texts[telling.language];
  const { code, method, carbonToNitrogen } = pile.started.data;
  return [
    { kind: 'heading', level: 2, text: `${own.pile} ${code}` },
    {
      kind: 'facts',
      items: [
        { term: own.pile, value: code },
        { term: own.method, value: own.methods[method] },
        { term: own.started, value: momentText(telling, pile.started.at) },
        { term: own.cn, value: carbonToNitrogen === undefined ? telling.words.notRecorded : `${carbonToNitrogen}:1` },
        { term: own.turnings, value: String(pile.turnings.length) },
        { term: own.finished, value: pile.finishes.map(({ at }) => momentText(telling, at)).join(', ') || own.notYet },
        {
          term: own.lots,
          value: pile.finishes.map(({ data }) => lotName(telling, data.lotId)).join(', ') || telling.words.none,
        },
      ],
    },
    {
      kind: 'table',
      name: `inputs-${code}`,
      caption: own.inputs,
      columns: [
        { key: 'at', label: telling.words.time(telling.zone), type: 'instant' },
        { key: 'lot', label: own.lot, type: 'text' },
        { key: 'quantity', label: own.quantity, type: 'quantity' },
      ],
      rows: pile.inputs.map(({ lotId, quantity, at }) => [
        instantCell(telling, at.at),
        { text: lotName(telling, lotId) },
        { text: quantityText(telling, quantity, at.at) },
      ]),
    },
    temperatures(telling, pile),
    recordTable(
      telling,
      `turnings-${code}`,
      [...pile.turnings, ...pile.finishes].toSorted((a, b) => a.at.at - b.at.at),
      {
        caption: own.turned,
        known: new Set([pile.id]),
      },
    ),
    ...verdictBlocks(telling, judgeThing(telling.season, { kind: 'pile', id: pile.id }, telling.now)),
  ];
}

export function compostBlocks(telling: Telling, time: Period): Block[] {
  const piles = telling.season
    .piles()
    .filter((pile) =>
      [pile.started, ...pile.temperatures, ...pile.turnings, ...pile.finishes].some(({ at }) => isWithin(time, at.at)),
    );
  if (piles.length === 0) return [{ kind: 'paragraph', text: texts[telling.language].none }];
  return piles.flatMap((pile) => pileBlocks(telling, pile));
}

/** Every own pile: what went in, temperatures, turnings, what came out, and the verdicts on it. */
export const ownCompost = defineReport({
  kind: 'own-compost',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const time = periodOf(telling, parameters);
    return report(
      telling,
      { kind: 'own-compost', title: texts[telling.language].title, period: { from: time.from, to: time.to } },
      compostBlocks(telling, time),
    );
  },
});
