import type { Messages } from '../message.ts';

/** Equipment, instruments and whoever uses them. */
export const toolsMessages = {
  'equipment-clean.noOther': {
    en: 'No other use of {code} is recorded before.',
    es: 'No hay otro uso de {code} anotado antes.',
  },
  'equipment-clean.used': {
    en: '{code} was used for {what} at {at:time}',
    es: '{code} se usó para {what} a las {at:time}',
  },
  'equipment-clean.cleaned': { en: '{said} and cleaned before the tea.', es: '{said} y se lavó antes del té.' },
  'equipment-clean.notRinsed': {
    en: '{said} and cleaned before the tea, but not rinsed.',
    es: '{said} y se lavó antes del té, pero no se enjuagó.',
  },
  'equipment-clean.unsure': {
    en: '{said}; whether it was cleaned before the tea depends on times that are not exact.',
    es: '{said}; si se lavó antes del té depende de horas que no son exactas.',
  },
  'equipment-clean.prohibited': { en: ', a prohibited substance,', es: ', una sustancia prohibida,' },
  'equipment-clean.notCleaned': {
    en: '{said}{what} and no cleaning is recorded before the tea went through it.',
    es: '{said}{what} y no hay lavado anotado antes de pasar el té.',
  },
  'equipment-clean.none': { en: 'No equipment is named.', es: 'No se nombra ningún equipo.' },
  'equipment-calibrated.used': {
    en: '{code} was used for {application} on {day:day}',
    es: '{code} se usó para {application} el {day:day}',
  },
  'equipment-calibrated.never': {
    en: '{said} and its output was not measured before.',
    es: '{said} y su salida no se había medido antes.',
  },
  'equipment-calibrated.changed': {
    en: '{said}; it was changed after its output was last measured, on {last:day}.',
    es: '{said}; se cambió después de medir su salida por última vez, el {last:day}.',
  },
  'equipment-calibrated.age': {
    en: '{said}, its output last measured on {last:day}; a measurement counts for {valid} days.',
    es: '{said}, su salida medida por última vez el {last:day}; una medición cuenta {valid} días.',
  },
  'equipment-calibrated.unused': { en: 'Not used for tea yet.', es: 'Todavía no se usó para té.' },
  'instrument-calibrated.noPeriod': { en: 'No period is set for {code}.', es: 'No hay plazo fijado para {code}.' },
  'instrument-calibrated.read': {
    en: '{code} was read in {where} on {day:day}',
    es: '{code} se leyó en {where} el {day:day}',
  },
  'instrument-calibrated.sameDay': {
    en: 'it is calibrated or checked on the day',
    es: 'se calibra o revisa el mismo día',
  },
  'instrument-calibrated.validDays': {
    en: 'a calibration or check counts for {valid} days',
    es: 'una calibración o revisión cuenta {valid} días',
  },
  'instrument-calibrated.never': {
    en: '{said} without a calibration or check before it; {period}.',
    es: '{said} sin calibración o revisión antes; {period}.',
  },
  'instrument-calibrated.last': {
    en: '{said}, last calibrated or checked on {checked:day}; {period}.',
    es: '{said}, calibrado o revisado por última vez el {checked:day}; {period}.',
  },
  'instrument-calibrated.dayUnsure': {
    en: '{said} The day of the reading is not sure.',
    es: '{said} El día de la lectura no es seguro.',
  },
  'instrument-calibrated.unread': { en: 'No reading was taken with it.', es: 'No se tomó ninguna lectura con él.' },
  'instrument-calibrated.theTank': { en: 'the tank', es: 'el tanque' },
  'instrument-drift.off': {
    en: '{code} was found {percent:figure} % off on {day:day}.',
    es: 'Se halló que {code} estaba desviado {percent:figure} % el {day:day}.',
  },
  'instrument-drift.nothingRead': {
    en: '{code} was found {percent:figure} % off on {day:day}; nothing was read with it before.',
    es: 'Se halló que {code} estaba desviado {percent:figure} % el {day:day}; no se leyó nada con él antes.',
  },
  'instrument-drift.noneOfBatch': {
    en: '{code} was found {percent:figure} % off on {day:day}; no reading of this batch is in doubt.',
    es: 'Se halló que {code} estaba desviado {percent:figure} % el {day:day}; ninguna lectura de este lote de té está en duda.',
  },
  'instrument-drift.doubted': {
    en: '{code} was found {percent:figure} % off on {day:day}: {n} {n#reading|readings} since the last good check are in doubt ({where:list}{more:more}).',
    es: 'Se halló que {code} estaba desviado {percent:figure} % el {day:day}: {n} {n#lectura|lecturas} desde la última revisión buena {n#está|están} en duda ({where:list}{more:more}).',
  },
  'instrument-drift.none': { en: 'No check tells how far it was off.', es: 'Ninguna revisión dice cuánto se desvió.' },
  'person-trained.applied': { en: 'Applied {code} on {day:day}', es: 'Aplicó {code} el {day:day}' },
  'person-trained.never': {
    en: '{said}; no training before it is recorded.',
    es: '{said}; no hay capacitación anotada antes.',
  },
  'person-trained.last': {
    en: '{said}, last trained on {trained:day} ({topic}); a training counts for {validDays} days.',
    es: '{said}, con la última capacitación el {trained:day} ({topic}); una capacitación cuenta {validDays} días.',
  },
  'person-trained.more': {
    en: '{n} more {n#application|applications} alike.',
    es: '{n} {n#aplicación más|aplicaciones más} igual.',
  },
} as const satisfies Messages;
