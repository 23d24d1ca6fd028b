import type { Language } from './words/index.ts';

const figureNames: Readonly<Record<string, { readonly en: string; readonly es: string }>> = {
  answeredOn: { en: 'answered on', es: 'contestado el' },
  areaM2: { en: 'area', es: 'superficie' },
  appliedOn: { en: 'applied on', es: 'aplicado el' },
  balance: { en: 'balance', es: 'saldo' },
  brewHours: { en: 'brew time', es: 'tiempo de preparación' },
  calibrationAgeDays: { en: 'days since calibration', es: 'días desde la calibración' },
  carbonToNitrogen: { en: 'carbon to nitrogen', es: 'carbono a nitrógeno' },
  changedOutcomes: { en: 'outcomes changed', es: 'veredictos cambiados' },
  contentL: { en: 'content of the tank', es: 'contenido del tanque' },
  contradictions: { en: 'contradictions', es: 'contradicciones' },
  countDifference: { en: 'difference to the count', es: 'diferencia con el conteo' },
  days: { en: 'days', es: 'días' },
  daysAtTemperature: { en: 'days at temperature', es: 'días a temperatura' },
  daysToHarvest: { en: 'days to harvest', es: 'días hasta la cosecha' },
  driftPercent: { en: 'drift', es: 'deriva' },
  dueOn: { en: 'due on', es: 'para el' },
  edibleParts: { en: 'edible parts', es: 'partes comestibles' },
  entriesWithoutEffect: { en: 'entries without effect', es: 'entradas sin efecto' },
  expiresOn: { en: 'expires on', es: 'caduca el' },
  freeChlorineMgPerL: { en: 'free chlorine', es: 'cloro libre' },
  freeFrom: { en: 'free from', es: 'libre desde' },
  gapHours: { en: 'longest gap', es: 'mayor intervalo' },
  goodResults: { en: 'good results', es: 'resultados buenos' },
  harvestFrom: { en: 'harvest from', es: 'cosecha desde' },
  harvestedOn: { en: 'harvested on', es: 'cosechado el' },
  holdHours: { en: 'hold time', es: 'tiempo en espera' },
  hoursUntilTold: { en: 'time until told', es: 'tiempo hasta avisar' },
  hoursUntilWritten: { en: 'time until written', es: 'tiempo hasta anotar' },
  lastBeforeDrawHours: { en: 'last before the draw', es: 'última antes de sacar' },
  mgPerL: { en: 'oxygen', es: 'oxígeno' },
  minutesOff: { en: 'air off', es: 'aire apagado' },
  missing: { en: 'missing', es: 'falta' },
  oxygenHeadroomMgPerL: { en: 'oxygen headroom', es: 'margen de oxígeno' },
  preAerationMinutes: { en: 'air before food', es: 'aire antes del alimento' },
  runDays: { en: 'days in use', es: 'días en uso' },
  saturationPercent: { en: 'saturation', es: 'saturación' },
  sharePercent: { en: 'share of the content', es: 'parte del contenido' },
  temperatureF: { en: 'temperature', es: 'temperatura' },
  testAgeDays: { en: 'days since the test', es: 'días desde el análisis' },
  totalChlorineMgPerL: { en: 'total chlorine', es: 'cloro total' },
  trainedOn: { en: 'trained on', es: 'capacitado el' },
  treatmentStatus: { en: 'treatment', es: 'tratamiento' },
  turnings: { en: 'turnings', es: 'volteos' },
  unaccountedL: { en: 'not accounted for', es: 'sin explicar' },
  unaccountedPercent: { en: 'not accounted for', es: 'sin explicar' },
  uncheckedInterruptionHours: { en: 'unchecked interruption', es: 'interrupción sin revisar' },
  usedOn: { en: 'used on', es: 'usado el' },
  rulingsNotOnRecord: { en: 'rulings not on record', es: 'disposiciones sin anotar' },
  looserThanRegulation: { en: 'looser than the regulation', es: 'menos estricto que la norma' },
  uses: { en: 'uses', es: 'usos' },
};

/** Values that are words of a record or of a rule, not numbers or days. */
const figureWords: Readonly<Record<string, { readonly en: string; readonly es: string }>> = {
  absent: { en: 'absent', es: 'ausentes' },
  noAnimalOrigin: { en: 'nothing of animal origin', es: 'nada de origen animal' },
  present: { en: 'present', es: 'presentes' },
  treated: { en: 'treated', es: 'tratado' },
  unknown: { en: 'not known', es: 'no se sabe' },
  untreated: { en: 'untreated', es: 'sin tratar' },
};

/** A figure's value that is text, in words: `nothing of animal origin`; a day, and text without words here, as it is. */
export const figureWord = (value: string, language: Language): string => figureWords[value]?.[language] ?? value;

/**
 * A figure's name in words: `longest gap`; for one without words here, its own name taken apart. What is no name of ours (a
 * material that somebody named) stays as it is.
 */
export function figureName(name: string, language: Language): string {
  const ours = /^[a-z]+([A-Z][a-z]*)+$/.test(name);
  return figureNames[name]?.[language] ?? (ours ? name.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase() : name);
}
