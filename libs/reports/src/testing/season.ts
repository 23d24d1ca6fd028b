import {
  drawSubjectId,
  openSeason,
  operationId,
  parseDraft,
  type LogRecord,
  type OpenSeason,
  type Quantity,
  type RecordType,
} from '@furrowmark/domain';
import { isRefusal, type ReportKind } from '../reports/kind.ts';
import type { ReportContent, TableBlock } from '../content.ts';
import type { Given } from '../telling/index.ts';

export const operation = operationId.parse('0197a000-0000-7000-8000-00000000000f');
/** The id a name stands for: the same name, the same id (a UUIDv5 in the operation's namespace). */
export const id = (name: string): string => drawSubjectId(operation, name);
/** `04-20 06:10` of 2026 in New York's summer time. */
export const at = (text: string): string => `2026-${text.replace(' ', 'T')}:00-04:00`;
export const gal = (value: number): Quantity => ({ value, unit: '[gal_us]' });
export const lb = (value: number): Quantity => ({ value, unit: '[lb_av]' });
export const acres = (value: number): Quantity => ({ value, unit: '[acr_us]' });
export const mgPerL = (value: number): Quantity => ({ value, unit: 'mg/L' });

export type Line = readonly [
  type: RecordType,
  occurredAt: string,
  data: object,
  beside?: {
    readonly id?: string;
    readonly performedBy?: string;
    readonly recordedAt?: string;
    readonly origin?: string;
    readonly plusMinusMinutes?: number;
  },
];

/** A season from lines, written in the order given, each recorded when it happened unless told otherwise. */
export function seasonOf(...lines: readonly Line[]): OpenSeason {
  const records = lines.map(([type, occurredAt, data, beside = {}], seq): LogRecord => {
    const { recordedAt, ...client } = beside;
    const draft = { id: id(`record ${seq}`), type, version: 1, occurredAt: at(occurredAt), ...client, data };
    const parsed = parseDraft(draft, { now: Date.parse('2027-01-01T00:00:00Z') });
    if (!parsed.ok) throw new Error(`${type}: ${JSON.stringify(parsed.problem)}`);
    return {
      ...parsed.draft,
      operationId: operation,
      seq,
      recordedAt: at(recordedAt ?? occurredAt),
      recordedBy: id('account'),
    };
  });
  return openSeason(records);
}

export const given: Given = {
  now: Date.parse('2026-11-02T15:15:00Z'),
  language: 'en',
  log: { size: 1, root: 'qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqo=' },
};

/** The report, where the test expects one. */
export function made(
  kind: ReportKind,
  season: OpenSeason,
  parameters: object,
  more: Partial<Given> = {},
): ReportContent {
  const content = kind.content(season, parameters, { ...given, ...more });
  if (isRefusal(content)) throw new Error(`refused: ${JSON.stringify(content)}`);
  return content;
}

/** A table of a report by its name. */
export function tableIn(content: ReportContent, name: string): TableBlock {
  const found = content.blocks.find((block): block is TableBlock => block.kind === 'table' && block.name === name);
  if (found === undefined) throw new Error(`no table ${name}`);
  return found;
}

/** What a table prints, row by row. */
export const printed = (table: TableBlock): string[][] => table.rows.map((row) => row.map(({ text }) => text));

/** All the words of a report, as one text. */
export const wordsIn = (content: ReportContent): string => JSON.stringify(content);

/** The farm that these tests share: one tank, one well, two fields, compost and molasses. */
export const farm: readonly Line[] = [
  [
    'operation.described',
    '04-01 08:00',
    { name: 'Quillfen Growers', timeZone: 'America/New_York', elevation: { value: 210, unit: 'm' } },
  ],
  [
    'person.registered',
    '04-01 08:00',
    { personId: id('Ines'), personal: { name: 'Ines Harrow', address: '12 Quillfen Lane' } },
  ],
  ['source.registered', '04-01 08:00', { sourceId: id('well'), code: 'Barn well', kind: 'well', disinfectant: 'none' }],
  [
    'vessel.registered',
    '04-01 08:00',
    { vesselId: id('tote'), code: 'Tote 1', totalVolume: gal(330), workingVolume: gal(320), previousContents: 'none' },
  ],
  [
    'material.registered',
    '04-01 08:00',
    {
      materialId: id('WC'),
      code: 'WC',
      name: 'worm compost',
      kind: 'vermicompost',
      animalOrigin: 'yes',
      microbialFood: 'no',
    },
  ],
  [
    'material.registered',
    '04-01 08:00',
    { materialId: id('MO'), code: 'MO', name: 'molasses', kind: 'nutrient', animalOrigin: 'no', microbialFood: 'yes' },
  ],
  [
    'lot.received',
    '04-02 08:00',
    { lotId: id('WC-1'), code: 'WC-1', materialId: id('WC'), supplierLot: 'S7', quantity: lb(100) },
  ],
  [
    'lot.received',
    '04-02 08:00',
    { lotId: id('MO-1'), code: 'MO-1', materialId: id('MO'), supplierLot: '', quantity: gal(5) },
  ],
  [
    'field.registered',
    '04-01 08:00',
    { fieldId: id('North'), code: 'North', kind: 'field', area: acres(6), landStatus: 'organic' },
  ],
  [
    'field.registered',
    '04-01 08:00',
    { fieldId: id('East'), code: 'East', kind: 'block', area: acres(2), landStatus: 'transition' },
  ],
  [
    'planting.started',
    '04-05 08:00',
    { plantingId: id('carrots'), fieldId: id('North'), crop: 'carrots', ediblePart: 'root', plantedOn: '2026-04-05' },
  ],
];

/** T-1: 300 gal from the well, 10 lb of compost, brewed from 20 April 09:00 to air off on 21 April 10:00. */
export const brew: readonly Line[] = [
  ['batch.opened', '04-20 08:00', { batchId: id('T-1'), code: 'T-1', kind: 'aeratedTea', vesselId: id('tote') }],
  ['batch.filled', '04-20 08:30', { batchId: id('T-1'), sourceId: id('well'), volume: gal(300) }],
  ['batch.airStarted', '04-20 08:35', { batchId: id('T-1') }],
  ['batch.ingredientAdded', '04-20 09:00', { batchId: id('T-1'), lotId: id('WC-1'), quantity: lb(10) }],
  [
    'batch.oxygenMeasured',
    '04-20 18:00',
    { batchId: id('T-1'), dissolvedOxygen: mgPerL(7.4), temperature: { value: 64, unit: '[degF]' } },
    { performedBy: id('Ines') },
  ],
  [
    'batch.oxygenMeasured',
    '04-21 06:00',
    { batchId: id('T-1'), dissolvedOxygen: mgPerL(6.8), temperature: { value: 62, unit: '[degF]' } },
  ],
  ['batch.airStopped', '04-21 10:00', { batchId: id('T-1'), cause: 'planned' }],
];

/** Two loads of T-1: 120 gal of which 8 are dumped, on North; 150 gal on North and East by area, applied until 19:12. */
export const loads: readonly Line[] = [
  ['batch.drawn', '04-21 10:10', { drawId: id('load 1'), batchId: id('T-1'), volume: gal(120) }],
  [
    'application.made',
    '04-21 11:30',
    {
      applicationId: id('A-1'),
      code: 'A-1',
      targets: [{ fieldId: id('North'), plantingId: id('carrots'), area: acres(4) }],
      draws: [{ drawId: id('load 1') }],
      startedAt: at('04-21 10:30'),
      finishedAt: at('04-21 11:30'),
      method: 'soilDrench',
      edibleParts: 'absent',
      applicator: id('Ines'),
    },
  ],
  ['draw.ended', '04-21 11:40', { drawId: id('load 1'), volume: gal(8), fate: 'dumped', where: 'compost pad' }],
  [
    'application.made',
    '04-21 19:12',
    {
      applicationId: id('A-2'),
      code: 'A-2',
      targets: [
        { fieldId: id('North'), area: acres(1) },
        { fieldId: id('East'), area: acres(2) },
      ],
      draws: [{ batchId: id('T-1'), volume: gal(150) }],
      startedAt: at('04-21 18:00'),
      finishedAt: at('04-21 19:12'),
      method: 'soilDrench',
      edibleParts: 'absent',
      applicator: id('Ines'),
    },
  ],
  ['batch.closed', '04-21 20:00', { batchId: id('T-1'), remainingVolume: gal(28) }],
];

export const harvest: readonly Line[] = [
  [
    'harvest.made',
    '08-26 10:00',
    {
      harvestId: id('H-1'),
      code: 'H-1',
      fieldId: id('North'),
      plantingId: id('carrots'),
      quantity: lb(2400),
      soldAs: 'organic',
    },
  ],
  [
    'harvest.shipped',
    '08-27 10:00',
    { harvestId: id('H-1'), quantity: lb(1200), to: 'packing shed', reference: 'BOL 118' },
  ],
];
