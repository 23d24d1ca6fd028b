import { dateOn, instantOf, isDate, startOfDay, type CurrentRecord, type Instant } from '@furrowmark/domain';
import { z } from 'zod';
import type { Block } from '../content.ts';
import { localTime } from '../clock.ts';
import { report, tell, type Telling } from '../telling/index.ts';
import type { Language } from '../words/index.ts';
import { defineReport } from './kind.ts';
import { recordTable } from './record-table.ts';

const en = {
  title: 'Changes',
  since: (time: string) => `recorded since ${time}`,
  sinceInspection: (time: string) => `recorded since the inspection of ${time}`,
  fromStart: 'recorded since the beginning of the log',
  intro:
    'What was changed, corrected or set up anew, by the time at which it was recorded. Records of daily work are not listed: they are in the batch records and logs.',
  corrections: 'Corrected and withdrawn records',
  rules: 'Rule book',
  changed: 'Changed and retired',
  added: 'Registered anew',
  certifier: 'Certifier and inspections',
};
type Text = typeof en;
const es: Text = {
  title: 'Cambios',
  since: (time) => `anotados desde el ${time}`,
  sinceInspection: (time) => `anotados desde la inspección del ${time}`,
  fromStart: 'anotados desde el principio del registro',
  intro:
    'Lo que se cambió, se corrigió o se estableció de nuevo, por la hora en que se anotó. Las anotaciones del trabajo diario no se listan: están en los registros de lotes y en las bitácoras.',
  corrections: 'Anotaciones corregidas y retiradas',
  rules: 'Libro de reglas',
  changed: 'Cambiado y dado de baja',
  added: 'Registrado de nuevo',
  certifier: 'Certificadora e inspecciones',
};
const texts: Readonly<Record<Language, Text>> = { en, es };

const isCorrected =
  (since: Instant) =>
  (record: CurrentRecord): boolean =>
    record.history.some((step) => step.kind !== 'original' && step.inForce && instantOf(step.recordedAt) >= since);

export function changeBlocks(telling: Telling, since: Instant): Block[] {
  const own = texts[telling.language];
  const all = [...telling.season.records()];
  const recent = all.filter((record) => instantOf(record.recordedAt) >= since);
  const section = (heading: string, name: string, records: readonly CurrentRecord[]): Block[] => [
    { kind: 'heading', level: 2, text: heading },
    recordTable(
      telling,
      name,
      records.toSorted((a, b) => a.seq - b.seq),
      { withSubject: true },
    ),
  ];
  const ending =
    (...endings: string[]) =>
    (record: CurrentRecord): boolean =>
      endings.some((each) => record.type.endsWith(each));
  return [
    { kind: 'paragraph', text: own.intro },
    ...section(own.corrections, 'corrections', all.filter(isCorrected(since))),
    ...section(
      own.rules,
      'rule-book',
      recent.filter(({ type }) => type === 'ruleBook.adopted'),
    ),
    ...section(own.changed, 'changed', recent.filter(ending('.revised', '.retired', '.withdrawn', '.erased'))),
    ...section(own.added, 'added', recent.filter(ending('.registered', '.described', '.published', '.approved'))),
    ...section(
      own.certifier,
      'certifier',
      recent.filter(({ type }) => type.startsWith('certifier.') || type === 'inspection.held'),
    ),
  ];
}

/** When the last inspection before now was held; undefined while none is recorded. */
export const lastInspection = ({ season, now }: Telling): Instant | undefined =>
  season
    .ofType('inspection.held')
    .filter(({ at }) => at.at <= now)
    .at(-1)?.at.at;

/** What was changed since a day, the last inspection, or the beginning. */
export const changes = defineReport({
  kind: 'changes',
  title: { en: en.title, es: es.title },
  parameters: z.strictObject({
    since: z.string().refine(isDate, 'must be a day that exists, such as 2026-06-03').optional(),
  }),
  content(season, { since }, given) {
    const telling = tell(season, given);
    const own = texts[telling.language];
    const { zone } = telling;
    const inspected = lastInspection(telling);
    const [from, subtitle] =
      since !== undefined
        ? [startOfDay(since, zone), own.since(since)]
        : inspected !== undefined
          ? [inspected, own.sinceInspection(localTime(inspected, zone))]
          : [-Infinity, own.fromStart];
    const period = { from: Number.isFinite(from) ? dateOn(from, zone) : '–', to: dateOn(telling.now, zone) };
    return report(
      telling,
      { kind: 'changes', title: own.title, subtitle, ...(Number.isFinite(from) ? { period } : {}) },
      changeBlocks(telling, from),
    );
  },
});
