import type { Messages } from '../message.ts';

/** Word to and from the certifier. */
export const certifierMessages = {
  'notify-certifier.said': { en: '{what} at {at:time}', es: '{what} a las {at:time}' },
  'notify-certifier.due': {
    en: '{said}: tell the certifier at once, and record it.',
    es: '{said}: avise a la certificadora enseguida, y anótelo.',
  },
  'notify-certifier.never': {
    en: '{said}, and no word to the certifier is recorded.',
    es: '{said}, y no hay aviso a la certificadora anotado.',
  },
  'notify-certifier.late': {
    en: '{said}; the certifier was told {took:hours} later, which is not at once.',
    es: '{said}; a la certificadora se le avisó {took:hours} después, que no es enseguida.',
  },
  'notify-certifier.unsure': {
    en: '{said}; as the times are not exact, whether the certifier was told within {limit:hours} is not sure.',
    es: '{said}; como las horas no son exactas, no es seguro que a la certificadora se le avisara en {limit:hours}.',
  },
  'notify-certifier.told': {
    en: '{said}; the certifier was told {took:hours} later.',
    es: '{said}; a la certificadora se le avisó {took:hours} después.',
  },
  'notify-certifier.more': { en: '{n} more {n#event|events} alike.', es: '{n} {n#suceso más|sucesos más} igual.' },
  'notify-certifier.usedIn': {
    en: '{what}, a prohibited substance, was used in {code}',
    es: '{what}, una sustancia prohibida, se usó en {code}',
  },
  'certifier-due.open': {
    en: "The certifier's {name} is to be answered by {dueOn:day}.",
    es: 'La certificadora espera respuesta a su {name} hasta el {dueOn:day}.',
  },
  'certifier-due.late': {
    en: "The certifier's {name} was to be answered by {dueOn:day}; no answer is recorded.",
    es: 'La certificadora esperaba respuesta a su {name} hasta el {dueOn:day}; no hay respuesta anotada.',
  },
  'certifier-due.answered': {
    en: "The certifier's {name}, due on {dueOn:day}, was answered on {day:day}.",
    es: 'A la certificadora se le contestó su {name}, con plazo hasta el {dueOn:day}, el {day:day}.',
  },
  'certifier-due.more': { en: '{n} more {n#letter|letters} alike.', es: '{n} {n#carta más|cartas más} igual.' },
  'certifier-due.none': {
    en: 'No letter of the certifier carries a day.',
    es: 'Ninguna carta de la certificadora lleva fecha.',
  },
  'letter.ruling': { en: 'ruling {reference}', es: 'disposición {reference}' },
  'letter.request': { en: 'request {reference}', es: 'petición {reference}' },
  'letter.noncompliance': { en: 'notice of noncompliance {reference}', es: 'aviso de incumplimiento {reference}' },
  'letter.condition': { en: 'condition {reference}', es: 'condición {reference}' },
  'notify-certifier.own': {
    en: '{said}; the certifier was told {took:hours} later, after the {limit:hours} of your rule book.',
    es: '{said}; a la certificadora se le avisó {took:hours} después, pasadas las {limit:hours} de su libro de reglas.',
  },
} as const satisfies Messages;
