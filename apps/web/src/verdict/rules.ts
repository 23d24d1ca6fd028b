import { settings } from '../session/settings.ts';

/** The rules' titles in Spanish; English comes from the rules themselves. A rule without one here is shown in English. */
const spanish: Readonly<Record<string, string>> = {
  'brew-minimum': 'Preparado el tiempo suficiente',
  'brew-maximum': 'No preparado demasiado tiempo',
  'hold-maximum': 'Aplicado antes de que el té se quede sin aire demasiado tiempo',
  'air-continuous': 'Aire sin interrupciones largas',
  'oxygen-minimum': 'Oxígeno suficiente durante la preparación',
  'oxygen-checked': 'Oxígeno revisado con bastante frecuencia',
  'oxygen-possible': 'Una lectura que el agua puede dar',
  'odour-sound': 'Olor sano',
  'chlorine-dissipated': 'Cloro ido antes de poner el alimento',
  'topup-water': 'Agua añadida a té vivo',
  'chloramine-handled': 'Cloramina tratada',
  'dilution-water': 'Agua de dilución',
  'source-tested': 'Agua analizada',
  'source-suitable': 'Agua adecuada',
  'treatment-status': 'Té tratado o sin tratar',
  'contact-allowed': 'Contacto permitido con el cultivo',
  'harvest-interval': 'Plazo hasta la cosecha',
  'harvest-organic': 'Campo orgánico a la cosecha',
  'input-approved': 'Insumo aprobado el día del uso',
  'input-in-date': 'Insumo sin caducar',
  'input-not-held': 'Insumo no retenido',
  'input-recalled': 'Insumo no retirado',
  'lot-balance': 'Balance del lote',
  'compost-organic': 'Compost según la norma orgánica',
  'compost-produce': 'Compost según la norma de inocuidad',
  'additive-tested': 'Té con aditivos analizado',
  'recipe-followed': 'Receta seguida',
  'fill-level': 'Nivel de llenado',
  'volume-balance': 'Balance de volumen',
  'vessel-clean': 'Tanque limpio',
  'vessel-history': 'Contenido anterior del tanque',
  'equipment-clean': 'Equipo limpio',
  'equipment-calibrated': 'Equipo calibrado',
  'instrument-calibrated': 'Instrumento calibrado',
  'instrument-drift': 'Instrumento sin deriva',
  'temperature-range': 'Temperatura adecuada',
  'area-possible': 'Superficie posible',
  'tank-mix': 'Mezcla en el equipo',
  'record-timely': 'Anotado a tiempo',
  'record-complete': 'Registro completo',
  'reference-known': 'Lo nombrado está descrito',
  'code-unique': 'Códigos sin repetir',
  'amendment-rivals': 'Correcciones que no se contradicen',
  'book-backdated': 'Libro de reglas con fecha anterior',
  'notify-certifier': 'Aviso a la certificadora',
};

const figureNames: Readonly<Record<string, { readonly en: string; readonly es: string }>> = {
  brewHours: { en: 'brew time', es: 'tiempo de preparación' },
  holdHours: { en: 'hold time', es: 'tiempo en espera' },
  gapHours: { en: 'longest gap', es: 'mayor intervalo' },
  lastBeforeDrawHours: { en: 'last before the draw', es: 'última antes de sacar' },
  preAerationMinutes: { en: 'air before food', es: 'aire antes del alimento' },
  interruptionMinutes: { en: 'interruption', es: 'interrupción' },
  uncheckedInterruptionHours: { en: 'unchecked interruption', es: 'interrupción sin revisar' },
  freeChlorineMgPerL: { en: 'free chlorine', es: 'cloro libre' },
  totalChlorineMgPerL: { en: 'total chlorine', es: 'cloro total' },
  lowestMgPerL: { en: 'lowest oxygen', es: 'oxígeno más bajo' },
  unaccountedPercent: { en: 'not accounted for', es: 'sin explicar' },
};

/** The rule's title in the device's language. */
export function ruleTitle(ruleId: string, title: string, language = settings.get().language): string {
  return language === 'es' ? (spanish[ruleId] ?? title) : title;
}

/** A figure's name in words: `longest gap`; for one without words here, its own name taken apart. */
export function figureName(name: string, language = settings.get().language): string {
  return figureNames[name]?.[language] ?? name.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
}
