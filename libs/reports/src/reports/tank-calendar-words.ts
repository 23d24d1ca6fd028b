import type { Language } from '../words/index.ts';

const en = {
  title: 'Tank calendar',
  picture: 'Every tank through the period',
  pictureSays: (tanks: number, batches: number) =>
    `${tanks} tanks with ${batches} batches; the tables below have each with its days.`,
  none: 'No tank is registered.',
  unused: 'Not used in this period.',
  from: 'From',
  to: 'To',
  what: 'What',
  inUse: 'Days in use',
  idleDays: 'Idle days',
  idle: 'idle',
};
export type Text = typeof en;
const es: Text = {
  title: 'Calendario de tanques',
  picture: 'Cada tanque durante el período',
  pictureSays: (tanks, batches) =>
    `${tanks} tanques con ${batches} lotes de té; las tablas de abajo tienen cada uno con sus días.`,
  none: 'No hay ningún tanque registrado.',
  unused: 'Sin uso en este período.',
  from: 'Desde',
  to: 'Hasta',
  what: 'Qué',
  inUse: 'Días en uso',
  idleDays: 'Días sin uso',
  idle: 'sin uso',
};
export const texts: Readonly<Record<Language, Text>> = { en, es };
