import { dateOn, endOfDay, isDate, type Decimal, type Instant, type Lot } from '@furrowmark/domain';
import { z } from 'zod';
import type { Block, Cell } from '../content.ts';
import { dayCell, nameOf, numberCell, report, tell, unitName, type Telling } from '../telling/index.ts';
import type { Language } from '../words/index.ts';
import { defineReport } from './kind.ts';
import { balanceBefore, lastCount } from './lot-amounts.ts';

const en = {
  title: 'Stock',
  on: (day: string) => `at the end of ${day}`,
  intro: 'The book balance of every lot: what came in less what went out, by the records up to that day.',
  none: 'Nothing was in stock.',
  lot: 'Lot',
  material: 'Material',
  received: 'Received',
  balance: 'In stock',
  unit: 'Unit',
  expires: 'Use by',
  counted: 'Last counted',
  state: 'State',
  states: {
    held: 'held',
    recalled: 'recalled',
    expired: 'past its date',
    short: 'more went out than came in',
    usable: '',
  },
};
type Text = typeof en;
const es: Text = {
  title: 'Existencias',
  on: (day) => `al final del ${day}`,
  intro: 'El saldo de libro de cada lote: lo que entró menos lo que salió, según las anotaciones hasta ese día.',
  none: 'No había nada en existencias.',
  lot: 'Lote',
  material: 'Material',
  received: 'Recibido',
  balance: 'En existencias',
  unit: 'Unidad',
  expires: 'Usar hasta',
  counted: 'Último conteo',
  state: 'Estado',
  states: {
    held: 'retenido',
    recalled: 'retirado',
    expired: 'pasado de fecha',
    short: 'salió más de lo que entró',
    usable: '',
  },
};
const texts: Readonly<Record<Language, Text>> = { en, es };

function stateOf(lot: Lot, balance: Decimal, day: string, end: Instant): keyof Text['states'] {
  if (lot.recalls.some(({ at }) => at.at < end)) return 'recalled';
  if (lot.holds.findLast(({ at }) => at.at < end)?.type === 'lot.held') return 'held';
  if (balance.isNegative()) return 'short';
  return lot.expiresOn !== undefined && lot.expiresOn < day ? 'expired' : 'usable';
}

export function stockBlocks(telling: Telling, day: string): Block[] {
  const own = texts[telling.language];
  const end = endOfDay(day, telling.zone);
  const lots = telling.season
    .lots()
    .filter(({ at }) => at.at < end)
    .map((lot) => ({ lot, balance: balanceBefore(lot, end) }))
    .filter(({ balance }) => !balance.toDecimalPlaces(3).isZero())
    .toSorted((a, b) => a.lot.code.localeCompare(b.lot.code));
  return [
    { kind: 'paragraph', text: own.intro },
    {
      kind: 'table',
      name: 'stock',
      caption: '',
      empty: own.none,
      columns: [
        { key: 'lot', label: own.lot, type: 'text' },
        { key: 'material', label: own.material, type: 'text' },
        { key: 'received', label: own.received, type: 'date' },
        { key: 'balance', label: own.balance, type: 'number' },
        { key: 'unit', label: own.unit, type: 'text' },
        { key: 'expiresOn', label: own.expires, type: 'date' },
        { key: 'counted', label: own.counted, type: 'date' },
        { key: 'state', label: own.state, type: 'text' },
      ],
      rows: lots.map(({ lot, balance }): Cell[] => {
        const count = lastCount(lot, end);
        const state = stateOf(lot, balance, day, end);
        const material = telling.season.material(lot.materialId)?.registered.name;
        return [
          { text: lot.code },
          { text: material ?? nameOf(telling, lot.materialId) },
          dayCell(telling, lot.at.at),
          numberCell(balance, 3, ''),
          { text: unitName(lot.quantity.unit) },
          { text: lot.expiresOn ?? '–', value: lot.expiresOn ?? null },
          count === undefined ? { text: '–', value: null } : dayCell(telling, count.at.at),
          { text: own.states[state], value: state },
        ];
      }),
    },
  ];
}

/** What was in stock at the end of any day. */
export const stock = defineReport({
  kind: 'stock',
  title: { en: en.title, es: es.title },
  parameters: z.strictObject({
    on: z.string().refine(isDate, 'must be a day that exists, such as 2026-06-03').optional(),
  }),
  content(season, { on }, given) {
    const telling = tell(season, given);
    const day = on ?? dateOn(telling.now, telling.zone);
    const own = texts[telling.language];
    return report(telling, { kind: 'stock', title: own.title, subtitle: own.on(day) }, stockBlocks(telling, day));
  },
});
