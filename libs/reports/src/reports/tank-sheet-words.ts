import type { Language } from '../words/index.ts';

const en = {
  title: 'Tank sheet',
  of: (code: string) => `Tank sheet ${code}`,
  subtitle: 'To write on at the tank, where no phone is at hand',
  scan: (code: string) => `Scan to record at the tank: batch ${code}`,
  batch: 'Batch',
  vessel: 'Tank',
  recipe: 'Recipe',
  filled: 'Filled',
  brewing: 'First ingredient',
  steps: 'Water, air, chlorine, ingredients: one line each, when it is done',
  stepColumns: [
    ['time', 'Date and time'],
    ['what', 'What was done (water, air on, air off, chlorine read, ingredient)'],
    ['lot', 'Source or lot'],
    ['amount', 'Amount and unit'],
    ['by', 'Initials'],
  ],
  readings: 'Readings',
  readingColumns: [
    ['time', 'Date and time'],
    ['oxygen', 'Dissolved oxygen, mg/L'],
    ['temperature', 'Temperature and unit'],
    ['odour', 'Odour'],
    ['surface', 'Air and surface'],
    ['by', 'Initials'],
  ],
  draws: 'Drawn, dumped or lost',
  drawColumns: [
    ['time', 'Date and time'],
    ['volume', 'Volume and unit'],
    ['into', 'Into which sprayer, or where it went'],
    ['by', 'Initials'],
  ],
  copying:
    'Write the time at which it was done and the figure as it was read. When it is typed in later, say that it is copied from paper, and keep this sheet.',
  caution:
    'Test reagents and chlorine irritate: gloves, outdoors, never two cleaners together. Blowers and pumps beside wet tanks only behind ground-fault protection. Tea can carry pathogens: keep it off what will be eaten.',
  sign: 'Copied into the records by, on',
} as const;
/** The same members and columns, other words. */
export type Text = {
  readonly [K in keyof typeof en]: (typeof en)[K] extends (code: string) => string
    ? (code: string) => string
    : (typeof en)[K] extends string
      ? string
      : readonly (readonly [key: string, label: string])[];
};
const es: Text = {
  title: 'Hoja de tanque',
  of: (code) => `Hoja de tanque ${code}`,
  subtitle: 'Para escribir junto al tanque cuando no hay teléfono a la mano',
  scan: (code) => `Escanee para anotar junto al tanque: lote de té ${code}`,
  batch: 'Lote de té',
  vessel: 'Tanque',
  recipe: 'Receta',
  filled: 'Llenado',
  brewing: 'Primer ingrediente',
  steps: 'Agua, aire, cloro, ingredientes: un renglón cada uno, cuando se hace',
  stepColumns: [
    ['time', 'Fecha y hora'],
    ['what', 'Lo que se hizo (agua, aire encendido o apagado, cloro medido, ingrediente)'],
    ['lot', 'Fuente o lote'],
    ['amount', 'Cantidad y unidad'],
    ['by', 'Iniciales'],
  ],
  readings: 'Mediciones',
  readingColumns: [
    ['time', 'Fecha y hora'],
    ['oxygen', 'Oxígeno disuelto, mg/L'],
    ['temperature', 'Temperatura y unidad'],
    ['odour', 'Olor'],
    ['surface', 'Aire y superficie'],
    ['by', 'Iniciales'],
  ],
  draws: 'Extraído, vertido o perdido',
  drawColumns: [
    ['time', 'Fecha y hora'],
    ['volume', 'Volumen y unidad'],
    ['into', 'En qué rociador, o adónde fue'],
    ['by', 'Iniciales'],
  ],
  copying:
    'Escriba la hora en que se hizo y la cifra tal como se leyó. Al pasarlo después, indique que se copió del papel, y guarde esta hoja.',
  caution:
    'Los reactivos y el cloro irritan: con guantes, al aire libre, nunca dos limpiadores juntos. Sopladores y bombas junto a tanques mojados, solo con interruptor diferencial. El té puede llevar patógenos: que no toque lo que se va a comer.',
  sign: 'Pasado a las anotaciones por, el',
};
export const texts: Readonly<Record<Language, Text>> = { en, es };
