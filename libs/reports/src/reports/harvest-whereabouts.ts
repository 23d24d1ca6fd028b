import { decimalIn, type Decimal, type Harvest } from '@furrowmark/domain';
import type { Block, Cell } from '../content.ts';
import {
  dayCell,
  nameOf,
  numberCell,
  quantityText,
  report,
  tell,
  unitName,
  worthOn,
  type Telling,
} from '../telling/index.ts';
import type { Language } from '../words/index.ts';
import { defineReport } from './kind.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';

const en = {
  title: 'Where the harvest went',
  intro:
    'Each harvest of the period, to whom it went and what the records leave unaccounted for. What was shipped later than the period is listed too.',
  none: 'Nothing was harvested in this period.',
  harvest: 'Harvest',
  crop: 'Crop',
  field: 'Field',
  harvested: 'Harvested on',
  soldAs: 'Sold as',
  quantity: 'Quantity',
  shipped: 'Shipped',
  rest: 'Not shipped',
  unit: 'Unit',
  on: 'Shipped on',
  to: 'To',
  reference: 'Reference',
  shipments: 'Shipments',
  harvests: 'Harvests',
  noShipment: 'No shipment is recorded of these harvests.',
  sold: { organic: 'organic', transition: 'transition', conventional: 'conventional', ownUse: 'own use' },
  over: (codes: string) =>
    `More was shipped than was harvested, by the records: ${codes}. A shipment may be on the wrong harvest.`,
};
type Text = typeof en;
const es: Text = {
  title: 'Adónde fue la cosecha',
  intro:
    'Cada cosecha del período, a quién fue y lo que las anotaciones dejan sin explicar. Lo enviado después del período también aparece.',
  none: 'No se cosechó nada en este período.',
  harvest: 'Cosecha',
  crop: 'Cultivo',
  field: 'Campo',
  harvested: 'Cosechado el',
  soldAs: 'Vendido como',
  quantity: 'Cantidad',
  shipped: 'Enviado',
  rest: 'Sin enviar',
  unit: 'Unidad',
  on: 'Enviado el',
  to: 'A',
  reference: 'Referencia',
  shipments: 'Envíos',
  harvests: 'Cosechas',
  noShipment: 'No hay ningún envío anotado de estas cosechas.',
  sold: { organic: 'orgánico', transition: 'en transición', conventional: 'convencional', ownUse: 'uso propio' },
  over: (codes) =>
    `Según las anotaciones se envió más de lo cosechado: ${codes}. Un envío puede estar en la cosecha equivocada.`,
};
const texts: Readonly<Record<Language, Text>> = { en, es };

interface Account {
  readonly harvest: Harvest;
  readonly unit: string | null;
  readonly quantity: Decimal | null;
  /** null where a shipment cannot be turned into the harvest's unit. */
  readonly shipped: Decimal | null;
}

function accountOf({ season }: Telling, harvest: Harvest): Account {
  const whole = worthOn(season, harvest.record.data.quantity, harvest.at.at);
  const unit = whole?.unit ?? null;
  const zero = whole?.value.times(0) ?? null;
  const shipped = harvest.shipments.reduce<Decimal | null>((sum, { data, at }) => {
    const part = worthOn(season, data.quantity, at.at);
    const converted = part === null || unit === null ? null : decimalIn(part, unit);
    return sum === null || converted === null ? null : sum.plus(converted);
  }, zero);
  return { harvest, unit, quantity: whole?.value ?? null, shipped };
}

function harvestTable(telling: Telling, accounts: readonly Account[]): Block {
  const own = texts[telling.language];
  const rows = accounts.map(({ harvest, unit, quantity, shipped }): Cell[] => [
    { text: harvest.code },
    { text: harvest.plantingId === null ? '–' : nameOf(telling, harvest.plantingId) },
    { text: nameOf(telling, harvest.fieldId) },
    dayCell(telling, harvest.at.at),
    { text: own.sold[harvest.record.data.soldAs], value: harvest.record.data.soldAs },
    numberCell(quantity, 1, '–'),
    numberCell(shipped, 1, '–'),
    numberCell(quantity === null || shipped === null ? null : quantity.minus(shipped), 1, '–'),
    { text: unit === null ? '–' : unitName(unit) },
  ]);
  return {
    kind: 'table',
    name: 'harvests',
    caption: own.harvests,
    empty: own.none,
    columns: [
      { key: 'harvest', label: own.harvest, type: 'text' },
      { key: 'crop', label: own.crop, type: 'text' },
      { key: 'field', label: own.field, type: 'text' },
      { key: 'harvestedOn', label: own.harvested, type: 'date' },
      { key: 'soldAs', label: own.soldAs, type: 'text' },
      { key: 'quantity', label: own.quantity, type: 'number' },
      { key: 'shipped', label: own.shipped, type: 'number' },
      { key: 'rest', label: own.rest, type: 'number' },
      { key: 'unit', label: own.unit, type: 'text' },
    ],
    rows,
  };
}

function shipmentTable(telling: Telling, harvests: readonly Harvest[]): Block {
  const own = texts[telling.language];
  const rows = harvests
    .flatMap((harvest) => harvest.shipments.map((shipment) => ({ harvest, shipment })))
    .toSorted((a, b) => a.shipment.at.at - b.shipment.at.at)
    .map(({ harvest, shipment }): Cell[] => [
      dayCell(telling, shipment.at.at),
      { text: harvest.code },
      { text: quantityText(telling, shipment.data.quantity, shipment.at.at) },
      { text: shipment.data.to },
      { text: shipment.data.reference || '–' },
    ]);
  return {
    kind: 'table',
    name: 'shipments',
    caption: own.shipments,
    empty: own.noShipment,
    columns: [
      { key: 'shippedOn', label: own.on, type: 'date' },
      { key: 'harvest', label: own.harvest, type: 'text' },
      { key: 'quantity', label: own.quantity, type: 'text' },
      { key: 'to', label: own.to, type: 'text' },
      { key: 'reference', label: own.reference, type: 'text' },
    ],
    rows,
  };
}

/** Each harvest of a period with its shipments, and what is left of it by the records. */
export function whereaboutsBlocks(telling: Telling, time: Period): Block[] {
  const { season } = telling;
  const own = texts[telling.language];
  const harvests = season
    .harvests()
    .filter(({ at }) => isWithin(time, at.at))
    .toSorted((a, b) => a.at.at - b.at.at || a.code.localeCompare(b.code));
  const accounts = harvests.map((harvest) => accountOf(telling, harvest));
  const over = accounts.filter(({ quantity, shipped }) => quantity !== null && shipped?.gt(quantity) === true);
  return [
    { kind: 'paragraph', text: own.intro },
    ...(over.length === 0
      ? []
      : [
          {
            kind: 'note' as const,
            tone: 'caution' as const,
            text: own.over(over.map(({ harvest }) => harvest.code).join(', ')),
          },
        ]),
    harvestTable(telling, accounts),
    shipmentTable(telling, harvests),
  ];
}

/** Each harvest with its shipments, and what is left of it by the records. */
export const harvestWhereabouts = defineReport({
  kind: 'harvest-whereabouts',
  title: { en: en.title, es: es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const time = periodOf(telling, parameters);
    const { title } = texts[telling.language];
    return report(
      telling,
      { kind: 'harvest-whereabouts', title, period: { from: time.from, to: time.to } },
      whereaboutsBlocks(telling, time),
    );
  },
});
