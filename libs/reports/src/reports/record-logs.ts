import type { CurrentRecord, RecordType } from '@furrowmark/domain';
import type { Block } from '../content.ts';
import { report, tell, type Telling } from '../telling/index.ts';
import type { Language } from '../words/index.ts';
import { defineReport, type ReportKind } from './kind.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { recordTable } from './record-table.ts';

interface Log {
  readonly kind: string;
  readonly title: Readonly<Record<Language, string>>;
  readonly types: readonly RecordType[];
}

/** Logs that are records of some types in order of time. A further one is a line here. */
export const logs: readonly Log[] = [
  {
    kind: 'water-log',
    title: { en: 'Water log', es: 'Bitácora de agua' },
    types: [
      'source.tested',
      'source.documented',
      'source.delivered',
      'batch.chlorineMeasured',
      'source.registered',
      'source.revised',
    ],
  },
  {
    kind: 'cleaning-log',
    title: { en: 'Cleaning log', es: 'Bitácora de limpieza' },
    types: ['vessel.cleaned', 'equipment.cleaned'],
  },
  {
    kind: 'calibration-log',
    title: { en: 'Calibration log', es: 'Bitácora de calibración' },
    types: ['instrument.calibrated', 'instrument.checked', 'equipment.calibrated'],
  },
  {
    kind: 'equipment-use-log',
    title: { en: 'Equipment-use log', es: 'Bitácora de uso del equipo' },
    types: ['equipment.used', 'application.made'],
  },
  {
    kind: 'training',
    title: { en: 'Training', es: 'Capacitación' },
    types: ['person.trained'],
  },
];

/** Standing and withdrawn records of the log's types within the period; withdrawn ones are printed struck through. */
export function logBlocks(telling: Telling, log: Log, time: Period): Block[] {
  const types = new Set<string>(log.types);
  const records: CurrentRecord[] = [];
  for (const record of telling.season.records()) {
    if (types.has(record.type) && isWithin(time, record.at.at)) records.push(record);
  }
  return [
    recordTable(
      telling,
      log.kind,
      records.toSorted((a, b) => a.at.at - b.at.at || a.seq - b.seq),
      { withSubject: true },
    ),
  ];
}

export const recordLogs: readonly ReportKind[] = logs.map((log) =>
  defineReport({
    kind: log.kind,
    title: log.title,
    parameters: period,
    content(season, parameters, given) {
      const telling = tell(season, given);
      const time = periodOf(telling, parameters);
      const title = log.title[telling.language];
      return report(
        telling,
        { kind: log.kind, title, period: { from: time.from, to: time.to } },
        logBlocks(telling, log, time),
      );
    },
  }),
);
