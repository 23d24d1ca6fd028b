import type { Messages } from '../message.ts';

/** Oxygen and temperature of the brew. */
export const oxygenMessages = {
  'oxygen-minimum.onlyAerated': {
    en: 'Only aerated tea has an oxygen limit here.',
    es: 'Solo el té aireado tiene aquí un límite de oxígeno.',
  },
  'oxygen-minimum.noMeter': {
    en: 'There is no oxygen meter: what eyes and nose find stands in its place.',
    es: 'No hay medidor de oxígeno: en su lugar está lo que hallan ojos y nariz.',
  },
  'oxygen-minimum.firstDue': {
    en: 'The first oxygen reading is due by {first:time}.',
    es: 'La primera lectura de oxígeno se espera antes de las {first:time}.',
  },
  'oxygen-minimum.none': {
    en: 'No oxygen reading is recorded from brew start to the last draw.',
    es: 'No hay ninguna lectura de oxígeno anotada desde el inicio de la preparación hasta la última carga.',
  },
  'oxygen-minimum.reading': { en: '{value} at {at:time}', es: '{value} a las {at:time}' },
  'oxygen-minimum.was': { en: 'Oxygen was {said}.', es: 'El oxígeno fue {said}.' },
  'oxygen-minimum.cannotTell': {
    en: 'Oxygen read {said}, which does not tell whether it was at least {limit} mg/L.',
    es: 'El oxígeno se leyó {said}, lo que no dice si era al menos {limit} mg/L.',
  },
  'oxygen-minimum.low': {
    en: 'Oxygen was {said}, below {limit} mg/L',
    es: 'El oxígeno fue {said}, menos de {limit} mg/L',
  },
  'oxygen-minimum.readAgain': {
    en: '{low}: more air or less feed, and read again by {by:time}.',
    es: '{low}: más aire o menos alimento, y lea otra vez antes de las {by:time}.',
  },
  'oxygen-minimum.leftAlone': {
    en: '{low}, and no sufficient reading followed.',
    es: '{low}, y no siguió ninguna lectura suficiente.',
  },
  'oxygen-minimum.corrected': { en: '{low}; {value} {took:hours} later', es: '{low}; {value} {took:hours} después' },
  'oxygen-minimum.tooLate': { en: '{corrected}, more than {limit:hours}.', es: '{corrected}, más de {limit:hours}.' },
  'oxygen-minimum.unsure': {
    en: '{corrected}; as the times are not exact, whether that was within {limit:hours} is not sure.',
    es: '{corrected}; como las horas no son exactas, no es seguro que fuera dentro de {limit:hours}.',
  },
  'oxygen-minimum.more': {
    en: '{n} more {n#reading was|readings were} no better.',
    es: '{n} {n#lectura más no fue|lecturas más no fueron} mejor.',
  },
  'oxygen-minimum.lowest': {
    en: 'The lowest of {n} readings was {lowest:figure} mg/L.',
    es: 'La más baja de {n} lecturas fue {lowest:figure} mg/L.',
  },
  'oxygen-checked.onlyBrewedHere': {
    en: 'Only aerated tea brewed here is checked before a draw.',
    es: 'Solo el té aireado que se prepara aquí se revisa antes de una carga.',
  },
  'oxygen-checked.noneBefore': {
    en: 'No {what} is recorded before this draw; the last one should be at most {before:hours} old.',
    es: 'No hay {what} antes de esta carga; debe tener a lo más {before:hours}.',
  },
  'oxygen-checked.last': {
    en: 'The last {what} was {age:hours} before the draw.',
    es: 'La última {what} fue {age:hours} antes de la carga.',
  },
  'oxygen-checked.lastOver': {
    en: 'The last {what} was {age} before the draw at {draw:time}; the limit is {before:hours}.',
    es: 'La última {what} fue {age} antes de la carga de las {draw:time}; el límite es {before:hours}.',
  },
  'oxygen-checked.lastUnsure': {
    en: 'The last {what} was {age} before the draw, as the times are not exact; the limit is {before:hours}.',
    es: 'La última {what} fue {age} antes de la carga, pues las horas no son exactas; el límite es {before:hours}.',
  },
  'oxygen-checked.onlyAerated': {
    en: 'Only aerated tea is checked for oxygen.',
    es: 'Solo en té aireado se revisa el oxígeno.',
  },
  'oxygen-checked.next': {
    en: 'The next {what} is due by {first:time}, at the latest by {last:time}.',
    es: 'La siguiente {what} se espera antes de las {first:time}, a más tardar a las {last:time}.',
  },
  'oxygen-checked.unsureSince': {
    en: 'Since {since:time}, a time that is not exact, no {what} is recorded.',
    es: 'Desde las {since:time}, una hora que no es exacta, no hay {what}.',
  },
  'oxygen-checked.noneSince': {
    en: 'No {what} is recorded since {since:time}; the limit of {limit:hours} ended at {last:time}.',
    es: 'No hay {what} desde las {since:time}; el límite de {limit:hours} terminó a las {last:time}.',
  },
  'oxygen-checked.without': { en: 'without {what} from {since:time}', es: 'sin {what} desde las {since:time}' },
  'oxygen-checked.within': { en: 'At most {gap:hours} {said}.', es: 'A lo más {gap:hours} {said}.' },
  'oxygen-checked.pastAdvised': {
    en: '{gap} {said}: within your limit of {limit:hours}, past the {advised:hours} that you advise.',
    es: '{gap} {said}: dentro de su límite de {limit:hours}, pasadas las {advised:hours} que usted aconseja.',
  },
  'oxygen-checked.over': {
    en: '{gap} {said}; the limit is {limit:hours}.',
    es: '{gap} {said}; el límite es {limit:hours}.',
  },
  'oxygen-checked.unsure': {
    en: '{gap} {said}, as the times are not exact; the limit is {limit:hours}, advised {advised:hours}.',
    es: '{gap} {said}, pues las horas no son exactas; el límite es {limit:hours}, lo aconsejado {advised:hours}.',
  },
  'oxygen-checked.throughout': { en: 'Checked throughout.', es: 'Revisado todo el tiempo.' },
  'oxygen-checked.reading': { en: 'oxygen reading', es: 'lectura de oxígeno anotada' },
  'oxygen-checked.check': { en: 'check', es: 'revisión anotada' },
  'oxygen-checked.looked': { en: 'check of surface, odour or air', es: 'revisión anotada de superficie, olor o aire' },
  'oxygen-checked.aReading': { en: 'an oxygen reading', es: 'una lectura de oxígeno' },
  'oxygen-checked.aCheck': { en: 'a check', es: 'una revisión' },
  'oxygen-possible.noTemperature': {
    en: 'No temperature was recorded with the readings.',
    es: 'Con las lecturas no se anotó temperatura.',
  },
  'oxygen-possible.said': {
    en: '{mgPerL:figure} mg/L at {at:time} is {share:figure} % of what water holds at {temperatureC:figure} °C',
    es: '{mgPerL:figure} mg/L a las {at:time} es el {share:figure} % de lo que el agua admite a {temperatureC:figure} °C',
  },
  'oxygen-possible.doubted': {
    en: '{said}: look at the probe and its calibration.',
    es: '{said}: mire la sonda y su calibración.',
  },
  'oxygen-possible.none': { en: 'No oxygen reading is recorded.', es: 'No hay lectura de oxígeno anotada.' },
  'temperature-range.less': { en: 'less', es: 'menos' },
  'temperature-range.more': { en: 'more', es: 'más' },
  'temperature-range.headroom': {
    en: 'It holds at most {room:figure} mg/L of oxygen, {difference:figure} {way} than the {limit} of your limit.',
    es: 'Admite a lo más {room:figure} mg/L de oxígeno, {difference:figure} {way} que los {limit} de su límite.',
  },
  'temperature-range.said': {
    en: '{f:figure} °F at {at:time}; the range is {leastF} to {mostF} °F.{headroom:more}',
    es: '{f:figure} °F a las {at:time}; el margen es de {leastF} a {mostF} °F.{headroom:more}',
  },
  'temperature-range.outside': {
    en: '{n} more {n#reading was|readings were} outside as well.',
    es: '{n} {n#lectura más estuvo|lecturas más estuvieron} fuera también.',
  },
  'temperature-range.none': { en: 'No temperature is recorded.', es: 'No hay temperatura anotada.' },
} as const satisfies Messages;
