import type { Batch, Decimal } from '@furrowmark/domain';
import type { Outcome, Verdict } from '@furrowmark/rules';
import type { Block, Cell } from '../../content.ts';
import {
  inOwnVolume,
  lotName,
  momentCell,
  momentText,
  nameOf,
  numberCell,
  quantityText,
  rounded,
  spanText,
  unitName,
  type Telling,
} from '../../telling/index.ts';
import { placesOf } from './ribbon.ts';
import { batchWords } from './words.ts';

/** Each draw's own brew and hold, with the shape of the verdict on each. */
export function draws(telling: Telling, batch: Batch, outcomes: readonly Outcome[]): Block {
  const own = batchWords[telling.language];
  const { words } = telling;
  const mark = (ruleIds: readonly string[], drawId: string): Verdict | undefined => {
    const found = outcomes.filter(({ ruleId, about }) => ruleIds.includes(ruleId) && about.id === drawId);
    return (['broken', 'unknown', 'caution', 'due', 'met'] as const).find((verdict) =>
      found.some(({ outcome }) => outcome === verdict),
    );
  };
  const hours = (text: string, verdict: Verdict | undefined): Cell =>
    verdict === undefined ? { text } : { text, mark: verdict };
  return {
    kind: 'table',
    name: 'draws',
    caption: '',
    empty: own.noDraws,
    columns: [
      { key: 'drawnAt', label: own.drawn, type: 'instant' },
      { key: 'volume', label: own.volume(unitName(telling.volumeUnit)), type: 'number' },
      { key: 'appliedTo', label: own.into, type: 'text' },
      { key: 'appliedUntil', label: own.ended, type: 'instant' },
      { key: 'brewHours', label: own.brewHours, type: 'verdict' },
      { key: 'holdHours', label: own.holdHours, type: 'verdict' },
      { key: 'lastOxygenMinutes', label: own.lastOxygen, type: 'text' },
    ],
    rows: batch.draws.map((draw) => [
      momentCell(telling, draw.at),
      numberCell(inOwnVolume(telling, draw.litres), 1, words.notRecorded),
      {
        text:
          draw.applicationId === null
            ? words.none
            : placesOf(telling, draw.applicationId) || nameOf(telling, draw.applicationId),
      },
      draw.appliedUntil === null ? { text: '–', value: null } : momentCell(telling, draw.appliedUntil),
      hours(spanText(telling, draw.brewHours, 'h'), mark(['brew-minimum', 'brew-maximum'], draw.id)),
      hours(spanText(telling, draw.holdHours, 'h'), mark(['hold-maximum'], draw.id)),
      { text: spanText(telling, draw.lastOxygenMinutes, 'min', 0) },
    ]),
  };
}

export function ingredients(telling: Telling, batch: Batch): Block {
  const own = batchWords[telling.language];
  return {
    kind: 'table',
    name: 'ingredients',
    caption: '',
    empty: own.noIngredients,
    columns: [
      { key: 'at', label: telling.words.time(telling.zone), type: 'instant' },
      { key: 'lot', label: own.lot, type: 'text' },
      { key: 'as', label: own.as, type: 'text' },
      { key: 'quantity', label: own.quantity, type: 'quantity' },
    ],
    rows: batch.ingredients.map((ingredient) => {
      const record = telling.season.record(ingredient.recordId);
      const original = record?.history.find((step) => step.kind === 'original')?.data;
      return [
        { text: momentText(telling, ingredient.at), value: momentCell(telling, ingredient.at).value ?? null },
        { text: lotName(telling, ingredient.lotId) },
        { text: ingredient.kind === 'neutralizer' ? own.neutralizer : own.ingredient },
        {
          text: quantityText(telling, ingredient.quantity, ingredient.at.at),
          ...(original === undefined ? {} : wasQuantity(telling, original, ingredient)),
        },
      ];
    }),
  };
}

/** The quantity first written, where an amendment changed it. */
function wasQuantity(
  telling: Telling,
  original: unknown,
  { quantity: now, at: { at } }: Batch['ingredients'][number],
): Partial<Cell> {
  if (typeof original !== 'object' || original === null || !('quantity' in original)) return {};
  const { quantity } = original;
  if (typeof quantity !== 'object' || quantity === null || !('value' in quantity && 'unit' in quantity)) return {};
  if (typeof quantity.value !== 'number' || typeof quantity.unit !== 'string') return {};
  const measureId = 'measureId' in quantity && typeof quantity.measureId === 'string' ? quantity.measureId : undefined;
  const before = quantityText(telling, { value: quantity.value, unit: quantity.unit, measureId }, at);
  return before === quantityText(telling, now, at) ? {} : { was: before };
}

/** filled + put back − drawn − supplied − lost − disposed − remaining, and what that leaves unexplained. */
export function volumeAccount(telling: Telling, batch: Batch): Block[] {
  const own = batchWords[telling.language];
  const { volume } = batch;
  const lines: readonly (readonly [string, Decimal | null, 1 | -1])[] = [
    [own.accountLines.filled, volume.filledL, 1],
    [own.accountLines.putBack, volume.putBackL, 1],
    [own.accountLines.drawn, volume.drawnL, -1],
    [own.accountLines.supplied, volume.suppliedL, -1],
    [own.accountLines.lost, volume.lostL, -1],
    [own.accountLines.disposed, volume.disposedL, -1],
    [own.accountLines.remaining, volume.remainingL ?? batch.content.at(-1)?.litres ?? null, -1],
  ];
  const printed = lines.map(([label, litres, sign]) => {
    const own = inOwnVolume(telling, litres);
    return { label, amount: own === null ? null : rounded(own, 1).times(sign) };
  });
  const sum = printed.reduce<Decimal | null>(
    (total, { amount }) => (amount === null ? total : (total?.plus(amount) ?? amount)),
    null,
  );
  const cell = (amount: Decimal | null): Cell => numberCell(amount, 1, telling.words.notRecorded);
  const open: Block[] = volume.remainingL === null ? [{ kind: 'note', tone: 'info', text: own.stillOpen }] : [];
  return [
    {
      kind: 'table',
      name: 'volume',
      caption: '',
      columns: [
        { key: 'line', label: own.line, type: 'text' },
        { key: 'volume', label: own.volume(unitName(telling.volumeUnit)), type: 'number' },
      ],
      rows: printed.map(({ label, amount }) => [{ text: label }, cell(amount)]),
      total: [{ text: own.unaccounted }, cell(sum)],
    },
    ...open,
  ];
}
