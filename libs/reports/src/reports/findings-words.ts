import type { Language } from '../words/index.ts';

const en = {
  title: 'Findings and corrective actions',
  summary: (open: number, answered: number, resolved: number) =>
    `Of what broke a limit or cannot be told: ${open} open, ${answered} answered, ${resolved} resolved by a correction of the records.`,
  cautions: (count: number) =>
    `${count} ${count === 1 ? 'caution' : 'cautions'} besides: inside the limit, past the advised value, or something to mind. They ask for no answer.`,
  none: 'No finding in this period.',
  since: (time: string) => `since ${time}`,
  states: { open: 'open', answered: 'answered', resolved: 'resolved' },
  gone: 'no longer standing',
  resolved: 'Resolved',
  resolvedBy: (seq: string) =>
    `by the correction in record ${seq}: as first written the records broke the rule, as corrected they do not.`,
  unanswered: 'No cause or action was recorded.',
  records: 'Records',
  counts: 'How many, by weight',
  severity: 'Severity',
  openCount: 'Open',
  answeredCount: 'Answered',
  resolvedCount: 'Resolved',
  cautionCount: 'Cautions',
};
export type Text = typeof en;
const es: Text = {
  title: 'Hallazgos y acciones correctivas',
  summary: (open, answered, resolved) =>
    `De lo que pasó un límite o no se puede saber: ${open} abiertos, ${answered} respondidos, ${resolved} resueltos al corregir las anotaciones.`,
  cautions: (count) =>
    `Además, ${count} ${count === 1 ? 'precaución' : 'precauciones'}: dentro del límite pero más allá de lo aconsejado, o algo que cuidar. No piden respuesta.`,
  none: 'Ningún hallazgo en este período.',
  since: (time) => `desde ${time}`,
  states: { open: 'abierto', answered: 'respondido', resolved: 'resuelto' },
  gone: 'ya no vigente',
  resolved: 'Resuelto',
  resolvedBy: (seq) =>
    `por la corrección en la anotación ${seq}: tal como se escribió primero no cumplía la regla; corregido, sí.`,
  unanswered: 'No se anotó causa ni acción.',
  records: 'Anotaciones',
  counts: 'Cuántos, por peso',
  severity: 'Peso',
  openCount: 'Abiertos',
  answeredCount: 'Respondidos',
  resolvedCount: 'Resueltos',
  cautionCount: 'Precauciones',
};
export const texts: Readonly<Record<Language, Text>> = { en, es };
