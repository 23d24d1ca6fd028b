import { dateOn, type Lot, type Material } from '@furrowmark/domain';
import type { Block, Cell } from '../content.ts';
import { quantityText, report, tell, type Telling } from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { texts, type Text } from './input-list-words.ts';

const isUse = (movement: Lot['movements'][number]): boolean =>
  movement.kind !== 'received' && movement.kind !== 'counted' && movement.kind !== 'disposed';

interface Input {
  readonly material: Material;
  readonly lots: readonly Lot[];
  /** Local days on which it was used. */
  readonly days: readonly string[];
}

function inputsIn({ season, zone }: Telling, time: Period): Input[] {
  return season
    .materials()
    .map((material) => {
      const lots = season
        .lots()
        .filter(({ materialId }) => materialId === material.id)
        .filter(({ movements }) => movements.some(({ at }) => isWithin(time, at.at)));
      const used = lots.flatMap(({ movements }) =>
        movements.filter((movement) => isUse(movement) && isWithin(time, movement.at.at)),
      );
      return { material, lots, days: [...new Set(used.map(({ at }) => dateOn(at.at, zone)))].toSorted() };
    })
    .filter(({ lots }) => lots.length > 0)
    .toSorted((a, b) => a.material.registered.code.localeCompare(b.material.registered.code));
}

type Dated = { readonly from: string; readonly until?: string | undefined };
const covers = ({ from, until }: Dated, day: string): boolean => from <= day && (until === undefined || day <= until);

/** Whether an approval that nobody has withdrawn covers the day. */
export const approvedOn = ({ approvals, withdrawals }: Material, day: string): boolean =>
  approvals.some(
    ({ data }) =>
      covers(data, day) &&
      !withdrawals.some((gone) => gone.data.by === data.by && gone.data.from >= data.from && covers(gone.data, day)),
  );

/** What an inspector would ask for and not find. */
function missingOf(own: Text, { material, lots, days }: Input): string[] {
  const { registered, approvals, documents } = material;
  const gaps: string[] = [];
  const unapproved = days.filter((day) => !approvedOn(material, day));
  if (approvals.length === 0) gaps.push(own.gaps.never);
  else if (unapproved.length > 0) {
    gaps.push(own.gaps.days(`${unapproved.slice(0, 3).join(', ')}${unapproved.length > 3 ? ' …' : ''}`));
  }
  const isOwn = lots.every(({ origin }) => origin.kind === 'pile');
  if (!isOwn && !documents.some(({ data }) => data.covers === 'label')) gaps.push(own.gaps.label);
  if (registered.animalOrigin === 'unknown') gaps.push(own.gaps.origin);
  const isTreated = documents.some(({ data }) => data.covers === 'treatment' && days.every((day) => covers(data, day)));
  if (!isOwn && registered.animalOrigin === 'yes' && !isTreated) gaps.push(own.gaps.treatment);
  const bought = lots.flatMap(({ code, origin }) =>
    origin.kind === 'received' ? [{ code, data: origin.record.data }] : [],
  );
  const withoutReceipt = bought.filter(({ data }) => data.documentId === undefined).map(({ code }) => code);
  if (withoutReceipt.length > 0) gaps.push(own.gaps.receipt(withoutReceipt.join(', ')));
  const withoutLot = bought.filter(({ data }) => data.supplierLot.trim() === '').map(({ code }) => code);
  if (withoutLot.length > 0) gaps.push(own.gaps.supplierLot(withoutLot.join(', ')));
  return gaps;
}

function approvalText(own: Text, { approvals, withdrawals }: Material): string {
  return [
    ...approvals.map(({ data }) => {
      const text = own.until(own.by[data.by], data.reference, data.from, data.until ?? own.openEnd);
      return data.restriction === undefined ? text : `${text}; ${own.restriction(data.restriction)}`;
    }),
    ...withdrawals.map(({ data }) => own.withdrawn(data.reference, data.from)),
  ].join('\n');
}

export function inputBlocks(telling: Telling, time: Period): Block[] {
  const own = texts[telling.language];
  const found = inputsIn(telling, time);
  const documented = (material: Material, what: 'label' | 'treatment'): string =>
    material.documents
      .filter(({ data }) => data.covers === what)
      .map(({ data }) => own.until(own.onFile, '', data.from, data.until ?? own.openEnd).replace(': ,', ','))
      .join('\n') || own.nothing;
  const rows = found.map((input): Cell[] => {
    const { material, days } = input;
    const { code, name, kind, supplier, animalOrigin } = material.registered;
    const gaps = missingOf(own, input);
    const first = days[0];
    return [
      { text: `${code} · ${name}`, value: code },
      { text: own.kinds[kind], value: kind },
      { text: supplier ?? telling.words.notRecorded },
      { text: approvalText(own, material) || own.nothing },
      { text: documented(material, 'label') },
      { text: animalOrigin === 'no' ? own.notNeeded : documented(material, 'treatment') },
      {
        text: first === undefined ? own.notUsed : own.days(days.length, first, days.at(-1) ?? first),
        value: days.length,
      },
      {
        text: gaps.join('; ') || telling.words.none,
        ...(gaps.length === 0 ? { value: null } : { mark: 'broken' as const }),
      },
    ];
  });
  return [
    { kind: 'paragraph', text: own.intro },
    {
      kind: 'table',
      name: 'inputs',
      caption: '',
      empty: own.none,
      columns: [
        { key: 'material', label: own.material, type: 'text' },
        { key: 'kind', label: own.kind, type: 'text' },
        { key: 'supplier', label: own.supplier, type: 'text' },
        { key: 'approval', label: own.approval, type: 'text', width: 2 },
        { key: 'label', label: own.label, type: 'text' },
        { key: 'treatment', label: own.treatment, type: 'text' },
        { key: 'daysUsed', label: own.use, type: 'text' },
        { key: 'missing', label: own.missing, type: 'verdict', width: 2 },
      ],
      rows,
    },
    lotTable(telling, found),
  ];
}

function lotTable(telling: Telling, found: readonly Input[]): Block {
  const own = texts[telling.language];
  const { season } = telling;
  const title = (documentId: string | undefined): string =>
    season.ofType('document.attached').find(({ data }) => data.documentId === documentId)?.data.title ?? own.onFile;
  const lots = found.flatMap(({ material, lots: of }) => of.map((lot) => ({ material, lot })));
  return {
    kind: 'table',
    name: 'lots',
    caption: own.lots,
    empty: own.none,
    columns: [
      { key: 'lot', label: own.lot, type: 'text' },
      { key: 'material', label: own.material, type: 'text' },
      { key: 'supplierLot', label: own.supplierLot, type: 'text' },
      { key: 'received', label: own.received, type: 'date' },
      { key: 'quantity', label: own.quantity, type: 'quantity' },
      { key: 'expiresOn', label: own.expires, type: 'date' },
      { key: 'receipt', label: own.receipt, type: 'text' },
    ],
    rows: lots.map(({ material, lot }): Cell[] => {
      const bought = lot.origin.kind === 'received' ? lot.origin.record.data : undefined;
      const receipt =
        bought === undefined
          ? own.own
          : bought.documentId !== undefined
            ? title(bought.documentId)
            : bought.openingStock === true
              ? own.opening
              : own.nothing;
      const day = dateOn(lot.at.at, telling.zone);
      return [
        { text: lot.code },
        { text: material.registered.name },
        { text: bought?.supplierLot || '–' },
        { text: day, value: day },
        { text: quantityText(telling, lot.quantity, lot.at.at) },
        { text: lot.expiresOn ?? '–', value: lot.expiresOn ?? null },
        { text: receipt },
      ];
    }),
  };
}

/** Inputs against the plan: approval, label, treatment, receipt, and what is missing. */
export const inputList = defineReport({
  kind: 'input-list',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const time = periodOf(telling, parameters);
    return report(
      telling,
      { kind: 'input-list', title: texts[telling.language].title, period: { from: time.from, to: time.to } },
      inputBlocks(telling, time),
    );
  },
});
