import type { Messages } from '../message.ts';

/** Tanks and what they hold. */
export const tanksMessages = {
  'fill-level.vesselUnknown': {
    en: 'Which tank this is, or its working volume, is not recorded.',
    es: 'No está anotado qué tanque es, o su volumen de trabajo.',
  },
  'fill-level.volumeUnknown': {
    en: 'What was filled in cannot be turned into a volume: record the worth of the mark.',
    es: 'Lo que se llenó no se puede convertir en volumen: anote cuánto vale la marca.',
  },
  'fill-level.noVolume': {
    en: 'The working volume of {code} is no volume.',
    es: 'El volumen de trabajo de {code} no es un volumen.',
  },
  'fill-level.held': {
    en: '{code} held {content} at {at:time}; its working volume is {working}.',
    es: '{code} tenía {content} a las {at:time}; su volumen de trabajo es {working}.',
  },
  'volume-balance.moreOut': {
    en: '{over:figure} L more were taken out than were put in, {percent:figure} % of {base:figure} L; {limit:figure} % is let stand.',
    es: 'Se sacaron {over:figure} L más de los que se pusieron, el {percent:figure} % de {base:figure} L; se admite el {limit:figure} %.',
  },
  'volume-balance.notClosed': {
    en: 'The account is drawn up when the batch is closed.',
    es: 'La cuenta se hace cuando se cierra el lote.',
  },
  'volume-balance.restUnknown': {
    en: '{open:figure} of {base:figure} L are not accounted for, and how much was left at the closing is not recorded.',
    es: '{open:figure} de {base:figure} L quedan sin explicar, y no está anotado cuánto quedaba al cerrar.',
  },
  'volume-balance.moreThan': { en: 'more than was filled in', es: 'son más de lo que se puso' },
  'volume-balance.unaccounted': { en: 'not accounted for', es: 'quedan sin explicar' },
  'volume-balance.said': {
    en: '{open:figure} of {base:figure} L ({percent:figure} %) are {way}; {limit:figure} % is let stand.',
    es: '{open:figure} de {base:figure} L ({percent:figure} %) {way}; se admite el {limit:figure} %.',
  },
  'vessel-clean.theTank': { en: 'The tank', es: 'El tanque' },
  'vessel-clean.noEarlier': {
    en: 'No earlier tea in {code} is recorded.',
    es: 'No hay té anterior anotado en {code}.',
  },
  'vessel-clean.cleaned': { en: '{code} was cleaned at {at:time}.', es: '{code} se lavó a las {at:time}.' },
  'vessel-clean.said': {
    en: '{code} was filled at {at:time} after {before}',
    es: '{code} se llenó a las {at:time} después de {before}',
  },
  'vessel-clean.cleanedBetween': { en: '{said}, cleaned at {at:time}.', es: '{said}, lavado a las {at:time}.' },
  'vessel-clean.notRinsed': {
    en: '{said}, cleaned at {at:time} but not rinsed.',
    es: '{said}, lavado a las {at:time} pero no enjuagado.',
  },
  'vessel-clean.unsureBetween': {
    en: '{said}; whether it was cleaned between them depends on times that are not exact.',
    es: '{said}; si se lavó entre los dos depende de horas que no son exactas.',
  },
  'vessel-clean.notCleaned': {
    en: '{said} without a cleaning recorded between them.',
    es: '{said} sin un lavado anotado entre los dos.',
  },
  'vessel-clean.fullTooLong': {
    en: '{code} has held tea since {since:time} without being emptied; the limit is {limit:days}.',
    es: '{code} tiene té desde las {since:time} sin vaciarse; el límite es {limit:days}.',
  },
  'vessel-clean.emptyBy': {
    en: '{code} has held tea since {since:time}: empty and clean it by {first:time}, at the latest by {last:time}.',
    es: '{code} tiene té desde las {since:time}: vacíelo y lávelo antes de las {first:time}, a más tardar a las {last:time}.',
  },
  'vessel-clean.run': {
    en: '{code} held tea for {run} without being emptied',
    es: '{code} tuvo té {run} sin vaciarse',
  },
  'vessel-clean.pastAdvised': {
    en: '{said}: within your limit of {limit:days}, past the {advised:days} that you advise.',
    es: '{said}: dentro de su límite de {limit:days}, pasados los {advised:days} que usted aconseja.',
  },
  'vessel-clean.over': { en: '{said}; the limit is {limit:days}.', es: '{said}; el límite es {limit:days}.' },
  'vessel-clean.unsure': {
    en: '{said}, as the times are not exact; the limit is {limit:days}, advised {advised:days}.',
    es: '{said}, pues las horas no son exactas; el límite es {limit:days}, lo aconsejado {advised:days}.',
  },
  'vessel-history.nothing': { en: 'nothing', es: 'nada' },
  'vessel-history.food': { en: 'food', es: 'alimento' },
  'vessel-history.held': { en: '{code} held {past} before.', es: '{code} tuvo {past} antes.' },
  'vessel-history.otherThanFood': { en: 'it held something other than food', es: 'tuvo algo que no era alimento' },
  'vessel-history.notKnown': { en: 'what it held is not known', es: 'no se sabe qué tuvo' },
  'vessel-history.unused': {
    en: '{code} is not used for tea yet; {past}: find out first.',
    es: '{code} todavía no se usa para té; {past}: averígüelo primero.',
  },
  'vessel-history.unknown': {
    en: 'What {code} held before its first use for tea is not known: find out, or take another tank.',
    es: 'No se sabe qué tuvo {code} antes de su primer uso para té: averígüelo, o tome otro tanque.',
  },
  'vessel-history.other': {
    en: '{code} held something other than food before its first use for tea: pesticide or cleaner stays in the wall; take another tank and ask the certifier about the tea.',
    es: '{code} tuvo algo que no era alimento antes de su primer uso para té: el pesticida o el limpiador se queda en la pared; tome otro tanque y pregunte a la certificadora por el té.',
  },
} as const satisfies Messages;
