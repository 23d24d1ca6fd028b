import type { Language } from '../words/index.ts';

const en = {
  title: 'Findings and corrective actions',
  summary: (open: number, answered: number, resolved: number) =>
    `${open} open, ${answered} answered, ${resolved} resolved by a correction of the records.`,
  none: 'No finding in this period.',
  since: (time: string) => `since ${time}`,
  states: { open: 'open', answered: 'answered', resolved: 'resolved' },
  gone: 'no longer standing',
  resolvedBy: (seq: string) =>
    `Resolved by the correction in record ${seq}: as first written the records broke the rule, as corrected they do not.`,
  answer: (time: string, who: string, state: string) => `${time}, ${who} (${state})`,
  answerStates: { open: 'still open', done: 'done', accepted: 'accepted' },
  cause: 'Cause',
  action: 'Action',
  unanswered: 'No cause or action was recorded.',
  records: 'Records',
  counts: 'How many, by weight',
  severity: 'Severity',
  openCount: 'Open',
  answeredCount: 'Answered',
  resolvedCount: 'Resolved',
  account: (id: string) => `account ${id}`,
};
export type Text = typeof en;
const es: Text = {
  title: 'Hallazgos y acciones correctivas',
  summary: (open, answered, resolved) =>
    `${open} abiertos, ${answered} respondidos, ${resolved} resueltos al corregir las anotaciones.`,
  none: 'Ningún hallazgo en este período.',
  since: (time) => `desde ${time}`,
  states: { open: 'abierto', answered: 'respondido', resolved: 'resuelto' },
  gone: 'ya no vigente',
  resolvedBy: (seq) =>
    `Resuelto por la corrección en la anotación ${seq}: como se escribió primero faltaba a la regla, corregido ya no.`,
  answer: (time, who, state) => `${time}, ${who} (${state})`,
  answerStates: { open: 'sigue abierto', done: 'hecho', accepted: 'aceptado' },
  cause: 'Causa',
  action: 'Acción',
  unanswered: 'No se anotó causa ni acción.',
  records: 'Anotaciones',
  counts: 'Cuántos, por peso',
  severity: 'Peso',
  openCount: 'Abiertos',
  answeredCount: 'Respondidos',
  resolvedCount: 'Resueltos',
  account: (id) => `cuenta ${id}`,
};
export const texts: Readonly<Record<Language, Text>> = { en, es };
