import { asOf, decimalIn, type Harvest, type Instant, type Quantity } from '@furrowmark/domain';
import type { Block, Cell, TableBlock } from '../content.ts';
import { centreOf } from '../exchange/field-geometry.ts';
import { dayCell, report, shortId, tell, unitName, worthOn, type Telling } from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { texts } from './traceability-list-words.ts';

/** A cell that says what a record says; empty where no record says it. */
const said = (text: string | undefined): Cell =>
  text === undefined || text === '' ? { text: '–', value: null } : { text };

/** Amount and unit in columns of their own, so that the sheet can be sorted and added up. */
function amount({ season }: Telling, quantity: Quantity, on: Instant): [Cell, Cell] {
  const worth = worthOn(season, quantity, on);
  if (worth === null) return [said(undefined), said(undefined)];
  const value = worth.value.toSignificantDigits(12).toNumber();
  return [{ text: String(value), value }, { text: unitName(worth.unit) }];
}

const cropOf = ({ season }: Telling, { plantingId }: Harvest): string | undefined =>
  plantingId === null ? undefined : season.planting(plantingId)?.started.data.crop;

const fieldOf = ({ season, now }: Telling, fieldId: string): string => {
  const field = season.field(fieldId);
  return field === undefined ? shortId(fieldId) : asOf(field, now).code;
};

function table(
  telling: Telling,
  name: 'harvesting' | 'shipping' | 'growing-areas',
  types: TableBlock['columns'][number]['type'][],
  rows: Cell[][],
): Block {
  const own = texts[telling.language];
  const columns = own.columns[name].map((label, index) => ({
    key: own.keys[name][index] ?? String(index),
    label,
    type: types[index] ?? ('text' as const),
  }));
  return { kind: 'table', name, caption: own.captions[name], empty: own.none, columns, rows };
}

function harvesting(telling: Telling, harvests: readonly Harvest[]): Block {
  const rows = harvests.map((harvest): Cell[] => {
    const receivers = [...new Set(harvest.shipments.map(({ data }) => data.to))];
    const references = [...new Set(harvest.shipments.map(({ data }) => data.reference).filter((text) => text !== ''))];
    return [
      { text: harvest.code },
      said(cropOf(telling, harvest)),
      ...amount(telling, harvest.record.data.quantity, harvest.at.at),
      { text: fieldOf(telling, harvest.fieldId) },
      dayCell(telling, harvest.at.at),
      said(receivers.join('; ')),
      said(references.join('; ')),
    ];
  });
  return table(telling, 'harvesting', ['text', 'text', 'number', 'text', 'text', 'date', 'text', 'text'], rows);
}

function shipping(telling: Telling, time: Period): Block {
  const rows = telling.season
    .harvests()
    .flatMap((harvest) => harvest.shipments.map((shipment) => ({ harvest, shipment })))
    .filter(({ shipment }) => isWithin(time, shipment.at.at))
    .toSorted((a, b) => a.shipment.at.at - b.shipment.at.at)
    .map(({ harvest, shipment }): Cell[] => [
      { text: harvest.code },
      said(cropOf(telling, harvest)),
      ...amount(telling, shipment.data.quantity, shipment.at.at),
      dayCell(telling, shipment.at.at),
      { text: shipment.data.to },
      said(shipment.data.reference),
    ]);
  return table(telling, 'shipping', ['text', 'text', 'number', 'text', 'date', 'text', 'text'], rows);
}

/** Degrees to five places: about a metre. */
const degrees = (value: number | undefined): Cell =>
  value === undefined ? said(undefined) : { text: value.toFixed(5), value: Number(value.toFixed(5)) };

function growingAreas(telling: Telling, harvests: readonly Harvest[]): Block {
  const { season, now } = telling;
  const reached = new Set<string>(harvests.map(({ fieldId }) => fieldId));
  const rows = season
    .fields()
    .filter(({ id }) => reached.has(id))
    .map((field): Cell[] => {
      const { code, boundary, area, parentId } = asOf(field, now);
      const centre = boundary === undefined ? null : centreOf(boundary);
      const acres = area === undefined ? null : decimalIn(area, telling.areaUnit);
      return [
        { text: code },
        said(parentId === undefined ? undefined : fieldOf(telling, parentId)),
        degrees(centre?.[1]),
        degrees(centre?.[0]),
        acres === null ? said(undefined) : { text: acres.toFixed(2), value: Number(acres.toFixed(2)) },
        said(acres === null ? undefined : unitName(telling.areaUnit)),
      ];
    });
  return table(telling, 'growing-areas', ['text', 'text', 'number', 'number', 'number', 'text'], rows);
}

/**
 * The key data elements that a grower's records hold for foods on the traceability list: harvesting, shipping, and where
 * each growing area lies (21 CFR 1.1315(a)(5), read 2026-11-25; 1.1340, shipping, as in force on 2026-06-20, read in a
 * public copy 2026-11-26; the columns for harvesting follow what 1.1330(a)(1) to (10) makes the first packer keep of the
 * harvest, read in a public copy 2026-11-27; 1.1325, the harvester's own duty, was not found to be read). What these ask
 * for and no record holds is said. Each table is a sheet that can be sorted.
 */
export const traceabilityList = defineReport({
  kind: 'traceability-list',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const own = texts[telling.language];
    const time = periodOf(telling, parameters);
    const harvests = season
      .harvests()
      .filter(({ at }) => isWithin(time, at.at))
      .toSorted((a, b) => a.at.at - b.at.at || a.code.localeCompare(b.code));
    const shippedWithin = season
      .harvests()
      .filter(({ shipments }) => shipments.some(({ at }) => isWithin(time, at.at)));
    return report(telling, { kind: 'traceability-list', title: own.title, period: { from: time.from, to: time.to } }, [
      { kind: 'paragraph', text: own.intro },
      harvesting(telling, harvests),
      { kind: 'paragraph', text: own.harvestNotHeld },
      shipping(telling, time),
      { kind: 'paragraph', text: own.notHeld },
      growingAreas(telling, [...harvests, ...shippedWithin]),
    ]);
  },
});
