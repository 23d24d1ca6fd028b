import type { Block } from '../content.ts';
import { report, tell, type Telling } from '../telling/index.ts';
import type { Language } from '../words/index.ts';
import { batchBlocks } from './batch-record/batch-record.ts';
import { changeBlocks, lastInspection } from './changes.ts';
import { findingBlocks, findingsWithin } from './findings.ts';
import { whereaboutsBlocks } from './harvest-whereabouts.ts';
import { inputBlocks } from './input-list.ts';
import { defineReport } from './kind.ts';
import { massBalanceBlocks } from './mass-balance.ts';
import { neighbourBlocks } from './neighbours-and-buffers.ts';
import { compostBlocks } from './own-compost.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { logBlocks, logs } from './record-logs.ts';
import { applicationBlocks } from './season-applications.ts';
import { stockBlocks } from './stock.ts';
import { tankBlocks } from './tank-calendar.ts';

const en = {
  title: 'Inspection packet',
  contents: 'What is in it',
  part: 'Part',
  parts: {
    findings: 'Findings and corrective actions',
    applications: 'Applications of the season',
    inputs: 'Input list',
    balance: 'Mass balance',
    stock: 'Stock at the end of the period',
    tanks: 'Tank calendar',
    compost: 'Own compost',
    neighbours: 'Neighbours and buffers',
    whereabouts: 'Where the harvest went',
    changes: 'Changes since the last inspection',
  },
  batch: (code: string) => `Batch record ${code}`,
};
type Text = typeof en;
const es: Text = {
  title: 'Paquete para la inspección',
  contents: 'Lo que contiene',
  part: 'Parte',
  parts: {
    findings: 'Hallazgos y acciones correctivas',
    applications: 'Aplicaciones de la temporada',
    inputs: 'Lista de insumos',
    balance: 'Balance de masas',
    stock: 'Existencias al final del período',
    tanks: 'Calendario de tanques',
    compost: 'Composta propia',
    neighbours: 'Vecinos y franjas de protección',
    whereabouts: 'Adónde fue la cosecha',
    changes: 'Cambios desde la última inspección',
  },
  batch: (code) => `Registro del lote de té ${code}`,
};
const texts: Readonly<Record<Language, Text>> = { en, es };

interface Part {
  readonly anchor: string;
  readonly title: string;
  readonly blocks: readonly Block[];
}

function partsOf(telling: Telling, time: Period): Part[] {
  const own = texts[telling.language];
  const batches = telling.season
    .batches()
    .filter((batch) => batch.records.some(({ at }) => isWithin(time, at.at)))
    .map((batch) => ({ batch, at: batch.records[0]?.at.at ?? 0 }))
    .toSorted((a, b) => a.at - b.at);
  return [
    { anchor: 'findings', title: own.parts.findings, blocks: findingBlocks(telling, findingsWithin(telling, time)) },
    { anchor: 'applications', title: own.parts.applications, blocks: applicationBlocks(telling, time) },
    { anchor: 'inputs', title: own.parts.inputs, blocks: inputBlocks(telling, time) },
    { anchor: 'balance', title: own.parts.balance, blocks: massBalanceBlocks(telling, time) },
    { anchor: 'stock', title: own.parts.stock, blocks: stockBlocks(telling, time.to) },
    { anchor: 'tanks', title: own.parts.tanks, blocks: tankBlocks(telling, time) },
    { anchor: 'compost', title: own.parts.compost, blocks: compostBlocks(telling, time) },
    { anchor: 'neighbours', title: own.parts.neighbours, blocks: neighbourBlocks(telling, time) },
    { anchor: 'whereabouts', title: own.parts.whereabouts, blocks: whereaboutsBlocks(telling, time) },
    ...logs.map((log) => ({
      anchor: log.kind,
      title: log.title[telling.language],
      blocks: logBlocks(telling, log, time),
    })),
    {
      anchor: 'changes',
      title: own.parts.changes,
      blocks: changeBlocks(telling, lastInspection(telling) ?? -Infinity),
    },
    ...batches.map(({ batch }) => ({
      anchor: batch.id,
      title: own.batch(batch.code),
      blocks: batchBlocks(telling, batch),
    })),
  ];
}

/** The whole of a period for an inspector to take away: every other report of it, each on a page of its own. */
export const inspectionPacket = defineReport({
  kind: 'inspection-packet',
  title: { en: en.title, es: es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const own = texts[telling.language];
    const time = periodOf(telling, parameters);
    const parts = partsOf(telling, time);
    const contents: Block[] = [
      { kind: 'heading', level: 1, text: own.contents },
      {
        kind: 'table',
        name: 'contents',
        caption: '',
        columns: [{ key: 'part', label: own.part, type: 'text' }],
        rows: parts.map(({ title, anchor }) => [{ text: title, to: anchor }]),
      },
    ];
    return report(telling, { kind: 'inspection-packet', title: own.title, period: { from: time.from, to: time.to } }, [
      ...contents,
      ...parts.flatMap(({ title, anchor, blocks }): Block[] => [
        { kind: 'pageBreak' },
        { kind: 'heading', level: 1, text: title, anchor },
        ...blocks,
      ]),
    ]);
  },
});
