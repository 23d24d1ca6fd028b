import type { Messages } from '../message.ts';

/** Water: chlorine, chloramine, tests and papers of sources. */
export const waterMessages = {
  'chlorine-dissipated.none': { en: 'The water holds no free chlorine.', es: 'El agua no lleva cloro libre.' },
  'chlorine-dissipated.gone': {
    en: 'Free chlorine was {said} at {at:time}.',
    es: 'El cloro libre fue {said} a las {at:time}.',
  },
  'chlorine-dissipated.still': {
    en: 'Free chlorine was still {said} at {at:time}; the limit is {limit} mg/L.',
    es: 'El cloro libre era todavía {said} a las {at:time}; el límite es {limit} mg/L.',
  },
  'chlorine-dissipated.keepAir': {
    en: '{still} Keep the air on and measure again before the food goes in.',
    es: '{still} Deje el aire puesto y mida otra vez antes de poner el alimento.',
  },
  'chlorine-dissipated.fed': {
    en: '{still} The food went in all the same.',
    es: '{still} El alimento entró de todos modos.',
  },
  'chlorine-dissipated.minutesDecide': {
    en: 'The reading ({said}) leaves the minutes to decide.',
    es: 'La lectura ({said}) deja que decidan los minutos.',
  },
  'chlorine-dissipated.giveAir': {
    en: 'Water from {code} is chlorinated: give it {advised:min} of air before the food goes in.',
    es: 'El agua de {code} lleva cloro: dele {advised:min} de aire antes de poner el alimento.',
  },
  'chlorine-dissipated.foodFrom': {
    en: 'Water from {code} is chlorinated: the food goes in from {aim:time}, at the earliest from {least:time}.{strip:more}',
    es: 'El agua de {code} lleva cloro: el alimento entra desde las {aim:time}, lo más temprano desde las {least:time}.{strip:more}',
  },
  'chlorine-dissipated.noAir': {
    en: 'Water from {code} is chlorinated, and how long it had air before the food went in is not recorded.',
    es: 'El agua de {code} lleva cloro, y no está anotado cuánto aire tuvo antes de entrar el alimento.',
  },
  'chlorine-dissipated.waterUnknown': {
    en: 'What the water from {code} is disinfected with is not known, and it had {span} of air before the food went in.',
    es: 'No se sabe con qué está desinfectada el agua de {code}, y tuvo {span} de aire antes de entrar el alimento.',
  },
  'chlorine-dissipated.neutralized': {
    en: 'A neutralizer went in and the air ran {span}: only a reading of free chlorine tells whether it is gone.',
    es: 'Entró un neutralizador y el aire corrió {span}: solo una lectura de cloro libre dice si se fue.',
  },
  'chlorine-dissipated.within': {
    en: '{aired} of uninterrupted air before the food went in.{strip:more}',
    es: '{aired} de aire sin interrupción antes de entrar el alimento.{strip:more}',
  },
  'chlorine-dissipated.pastAdvised': {
    en: '{aired} of uninterrupted air before the food went in: your least is {limit:min}, advised {advised:min}.{strip:more}',
    es: '{aired} de aire sin interrupción antes de entrar el alimento: lo menos suyo es {limit:min}, lo aconsejado {advised:min}.{strip:more}',
  },
  'chlorine-dissipated.over': {
    en: 'Water from {code} is chlorinated and had {aired} of uninterrupted air before the food went in; the least is {limit:min}.{strip:more}',
    es: 'El agua de {code} lleva cloro y tuvo {aired} de aire sin interrupción antes de entrar el alimento; lo menos es {limit:min}.{strip:more}',
  },
  'chlorine-dissipated.unsure': {
    en: 'The water had {span} of air before the food went in, as the times are not exact; the least is {limit:min}, advised {advised:min}.{strip:more}',
    es: 'El agua tuvo {span} de aire antes de entrar el alimento, pues las horas no son exactas; lo menos es {limit:min}, lo aconsejado {advised:min}.{strip:more}',
  },
  'chloramine-handled.none': { en: 'The water holds no chloramine.', es: 'El agua no lleva cloramina.' },
  'chloramine-handled.said': { en: '{reading} at {at:time}', es: '{reading} a las {at:time}' },
  'chloramine-handled.gone': {
    en: 'Total chlorine was {said} after the treatment.',
    es: 'El cloro total fue {said} después del tratamiento.',
  },
  'chloramine-handled.still': {
    en: 'Total chlorine is still {said}; the limit is {limit} mg/L.',
    es: 'El cloro total es todavía {said}; el límite es {limit} mg/L.',
  },
  'chloramine-handled.fed': {
    en: 'Total chlorine was still {said}; the limit is {limit} mg/L. The food went in all the same.',
    es: 'El cloro total era todavía {said}; el límite es {limit} mg/L. El alimento entró de todos modos.',
  },
  'chloramine-handled.orderUnsure': {
    en: 'Total chlorine was {said}; whether that was after the treatment and before the food is not sure.',
    es: 'El cloro total fue {said}; no es seguro que fuera después del tratamiento y antes del alimento.',
  },
  'chloramine-handled.cannotTell': {
    en: 'The reading of total chlorine ({said}) does not tell whether it was at or below {limit} mg/L.',
    es: 'La lectura de cloro total ({said}) no dice si era de {limit} mg/L o menos.',
  },
  'chloramine-handled.waterUnknown': {
    en: 'What the water from {code} is disinfected with is not known: record it, or measure total chlorine.',
    es: 'No se sabe con qué está desinfectada el agua de {code}: anótelo, o mida el cloro total.',
  },
  'chloramine-handled.treatFirst': {
    en: 'Water from {code} holds chloramine: treat it, then measure total chlorine before the food goes in. Air alone does not remove it.',
    es: 'El agua de {code} lleva cloramina: trátela, y luego mida el cloro total antes de poner el alimento. El aire solo no la quita.',
  },
  'chloramine-handled.freeTellsNothing': {
    en: 'A reading of free chlorine does not show chloramine.',
    es: 'Una lectura de cloro libre no muestra la cloramina.',
  },
  'chloramine-handled.neutralizerOnly': {
    en: 'A neutralizer went into water from {code}, which holds chloramine, and total chlorine was not measured after it.{more}',
    es: 'Entró un neutralizador en el agua de {code}, que lleva cloramina, y el cloro total no se midió después.{more}',
  },
  'chloramine-handled.airOnly': {
    en: 'Water from {code} holds chloramine, and no reading of total chlorine after a treatment is recorded. Air alone does not remove it.{more}',
    es: 'El agua de {code} lleva cloramina, y no hay lectura de cloro total anotada después de un tratamiento. El aire solo no la quita.{more}',
  },
  'topup-water.said': {
    en: '{reading} from {code} went onto living tea at {at:time}',
    es: '{reading} de {code} fueron sobre té vivo a las {at:time}',
  },
  'topup-water.little': {
    en: '{said}, {share:figure} % of the content.',
    es: '{said}, el {share:figure} % del contenido.',
  },
  'topup-water.over': { en: '{said}; the limit is {limit} mg/L.', es: '{said}; el límite es {limit} mg/L.' },
  'topup-water.cannotTell': {
    en: '{said}, which does not tell whether it was at or below {limit} mg/L.',
    es: '{said}, lo que no dice si era de {limit} mg/L o menos.',
  },
  'topup-water.waterUnknown': {
    en: '{said}; what it is disinfected with is not known.',
    es: '{said}; no se sabe con qué está desinfectada.',
  },
  'topup-water.none': { en: 'No chlorinated water went onto living tea.', es: 'No fue agua con cloro sobre té vivo.' },
  'topup-water.reading': { en: '{said}; {which} chlorine was {reading}', es: '{said}; el cloro {which} fue {reading}' },
  'topup-water.noReading': {
    en: '{said}, {share:figure} % of the content; it holds {disinfectant}, and no reading of {which} chlorine is recorded.',
    es: '{said}, el {share:figure} % del contenido; lleva {disinfectant}, y no hay lectura de cloro {which} anotada.',
  },
  'source-tested.good': {
    en: '{code}: no E. coli detected in the sample of {sampled:day}, current on {day:day}.',
    es: '{code}: no se detectó E. coli en la muestra del {sampled:day}, vigente el {day:day}.',
  },
  'source-tested.report': {
    en: "{code}: the utility's report covers {day:day}.",
    es: '{code}: el informe del servicio de agua cubre el {day:day}.',
  },
  'source-tested.bad': {
    en: '{code}: E. coli was detected in the sample of {sampled:day}, the last before the fill on {day:day}.',
    es: '{code}: se detectó E. coli en la muestra del {sampled:day}, la última antes del llenado del {day:day}.',
  },
  'source-tested.reopened': {
    en: '{code}: E. coli was detected in the sample of {sampled:day}, the next after the fill on {day:day}, so every batch since the last good sample is in question.',
    es: '{code}: se detectó E. coli en la muestra del {sampled:day}, la siguiente después del llenado del {day:day}, así que cada lote desde la última muestra buena está en cuestión.',
  },
  'source-tested.expired': {
    en: '{code}: the last sample, of {sampled:day}, was {ageDays} days old at the fill on {day:day}; a test counts for {validDays} days.',
    es: '{code}: la última muestra, del {sampled:day}, tenía {ageDays} días en el llenado del {day:day}; un análisis cuenta {validDays} días.',
  },
  'source-tested.cannotTell': {
    en: '{code}: the result of the sample of {sampled:day} does not tell whether E. coli is in 100 mL.',
    es: '{code}: el resultado de la muestra del {sampled:day} no dice si hay E. coli en 100 mL.',
  },
  'source-tested.pending': {
    en: '{code}: the result of the sample of {sampled:day} is pending.',
    es: '{code}: el resultado de la muestra del {sampled:day} está pendiente.',
  },
  'source-tested.neverRecorded': {
    en: '{code}: the result of the sample of {sampled:day} was never recorded.',
    es: '{code}: el resultado de la muestra del {sampled:day} nunca se anotó.',
  },
  'source-tested.untested': {
    en: '{code}: no test for E. coli covers the fill on {day:day}.',
    es: '{code}: ningún análisis de E. coli cubre el llenado del {day:day}.',
  },
  'source-tested.untestedMunicipal': {
    en: "{code}: no test for E. coli and no utility's report covers the fill on {day:day}.",
    es: '{code}: ningún análisis de E. coli ni informe del servicio de agua cubre el llenado del {day:day}.',
  },
  'source-suitable.surface': {
    en: '{code} is untreated surface water: tea with animal materials counts as untreated with it; keep it off the crop.',
    es: '{code} es agua superficial sin tratar: el té con materia animal cuenta con ella como sin tratar; no deje que toque el cultivo.',
  },
  'source-suitable.public': { en: '{code} is a public supply.', es: '{code} es un suministro público.' },
  'source-suitable.assessed': {
    en: '{code}: a written assessment covers {day:day}.',
    es: '{code}: una evaluación escrita cubre el {day:day}.',
  },
  'source-suitable.notAssessed': {
    en: '{code}: no written assessment covers {day:day}',
    es: '{code}: ninguna evaluación escrita cubre el {day:day}',
  },
  'source-suitable.standing': {
    en: "{said}; a covered farm needs one each year, and this farm's standing is not recorded.",
    es: '{said}; una finca cubierta necesita una cada año, y no está anotado si esta finca lo es.',
  },
  'dilution-water.none': { en: 'No water was added.', es: 'No se añadió agua.' },
  'dilution-water.fromWhere': {
    en: 'Water was added in the sprayer; from where is not recorded.',
    es: 'Se añadió agua en el equipo; no está anotado de dónde.',
  },
  'dilution-water.surface': {
    en: 'Untreated surface water ({code}) was added and went onto a food crop.',
    es: 'Se añadió agua superficial sin tratar ({code}) y fue a un cultivo de alimento.',
  },
  'dilution-water.waterUnknown': {
    en: 'What the water from {code} is disinfected with is not known.',
    es: 'No se sabe con qué está desinfectada el agua de {code}.',
  },
  'dilution-water.clean': {
    en: 'Water from {code} holds no disinfectant.',
    es: 'El agua de {code} no lleva desinfectante.',
  },
  'dilution-water.kills': {
    en: 'Water from {code} holds {disinfectant}; thinned into the tea it kills what was brewed.',
    es: 'El agua de {code} lleva {disinfectant}; mezclada con el té mata lo que se preparó.',
  },
  'water.sourceUnknown': {
    en: 'The source of this water is not recorded.',
    es: 'La fuente de esta agua no está anotada.',
  },
  'water.otherFills': { en: 'Other fills are like it.', es: 'Otros llenados están igual.' },
  'water.chlorine': { en: 'chlorine', es: 'cloro' },
  'water.chloramine': { en: 'chloramine', es: 'cloramina' },
  'water.unknown': { en: 'unknown', es: 'algo desconocido' },
  'water.none': { en: 'none', es: 'nada' },
  'water.free': { en: 'free', es: 'libre' },
  'water.total': { en: 'total', es: 'total' },
} as const satisfies Messages;
