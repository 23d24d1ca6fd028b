import type { Messages } from '../message.ts';

/** The tea in use: hold, contact, what is mixed in, what crosses the gate. */
export const useMessages = {
  'hold-maximum.noAir': {
    en: 'No air is recorded before this draw: record when it was on and when it went off.',
    es: 'No hay aire anotado antes de esta carga: anote cuándo estuvo puesto y cuándo se apagó.',
  },
  'hold-maximum.noAirHere': { en: 'This tea had no air here.', es: 'Este té no tuvo aire aquí.' },
  'hold-maximum.due': {
    en: 'The last air was at {off:time}: apply by {advised:time}, at the latest by {end:time}.',
    es: 'El último aire fue a las {off:time}: aplique antes de las {advised:time}, a más tardar a las {end:time}.',
  },
  'hold-maximum.loadLost': {
    en: 'The last air was at {off:time} and the {limit:hours} of the limit ended at {end:time}; no record shows what became of this load. Record its application, or that it was dumped.',
    es: 'El último aire fue a las {off:time} y las {limit:hours} del límite terminaron a las {end:time}; ningún registro dice qué fue de esta carga. Anote su aplicación, o que se tiró.',
  },
  'hold-maximum.said': {
    en: '{holdHours} after its last air at {off:time}',
    es: '{holdHours} después de su último aire a las {off:time}',
  },
  'hold-maximum.counted': {
    en: 'Of this, {unchecked:hours} are an interruption of the air after which neither oxygen nor odour was checked.',
    es: 'De esto, {unchecked:hours} son una interrupción del aire después de la cual no se revisó ni el oxígeno ni el olor.',
  },
  'hold-maximum.notChecked': {
    en: 'Applied {said}. Held longer than {checkAfter:hours} without an oxygen or odour check.{counted:more}',
    es: 'Se aplicó {said}. En espera más de {checkAfter:hours} sin revisar el oxígeno o el olor.{counted:more}',
  },
  'hold-maximum.within': { en: 'Applied {said}.{counted:more}', es: 'Se aplicó {said}.{counted:more}' },
  'hold-maximum.pastAdvised': {
    en: 'Applied {said}: within your limit of {limit:hours}, past the {advised:hours} that you advise.{counted:more}',
    es: 'Se aplicó {said}: dentro de su límite de {limit:hours}, pasadas las {advised:hours} que usted aconseja.{counted:more}',
  },
  'hold-maximum.over': {
    en: 'Applied {said}; the limit is {limit:hours}.{counted:more}',
    es: 'Se aplicó {said}; el límite es {limit:hours}.{counted:more}',
  },
  'hold-maximum.unsure': {
    en: 'Held {holdHours}, as the times are not exact; the limit is {limit:hours}, advised {advised:hours}.{counted:more}',
    es: 'En espera {holdHours}, pues las horas no son exactas; el límite es {limit:hours}, lo aconsejado {advised:hours}.{counted:more}',
  },
  'hold-maximum.airOff': {
    en: 'The air went off at {airOff:time}: apply by {first:time}, at the latest by {end:time}.',
    es: 'El aire se apagó a las {airOff:time}: aplique antes de las {first:time}, a más tardar a las {end:time}.',
  },
  'hold-maximum.teaLost': {
    en: 'The air went off at {airOff:time} and the {limit:hours} of the limit ended at {end:time}; no record shows what became of the tea. Record its application, or that it was disposed of.',
    es: 'El aire se apagó a las {airOff:time} y las {limit:hours} del límite terminaron a las {end:time}; ningún registro dice qué fue del té. Anote su aplicación, o que se tiró.',
  },
  'tank-mix.unknown': { en: 'What was mixed in is not recorded.', es: 'No está anotado lo que se mezcló.' },
  'tank-mix.harms': {
    en: '{name} harms tea and was in the same sprayer.',
    es: '{name} daña el té y estaba en el mismo equipo.',
  },
  'tank-mix.harmless': { en: '{name} does not harm tea.', es: '{name} no daña el té.' },
  'tank-mix.notRegistered': {
    en: 'Whether {name} harms tea is not registered.',
    es: 'No está registrado si {name} daña el té.',
  },
  'tank-mix.nothing': { en: 'Nothing was mixed in.', es: 'No se mezcló nada.' },
  'tea-supplied.went': { en: 'Tea went to {name} at {at:time}', es: 'El té fue a {name} a las {at:time}' },
  'tea-supplied.sold': {
    en: 'It was sold: ask the state whether it has to be registered.',
    es: 'Se vendió: pregunte al estado si hay que registrarlo.',
  },
  'tea-supplied.without': {
    en: '{said} without a statement of what it is.{sold:more}',
    es: '{said} sin una declaración de lo que es.{sold:more}',
  },
  'tea-supplied.unknown': {
    en: '{said}; whether a statement went with it is not recorded.{sold:more}',
    es: '{said}; no está anotado si iba con una declaración.{sold:more}',
  },
  'tea-supplied.with': { en: '{said} with a statement.{sold:more}', es: '{said} con una declaración.{sold:more}' },
  'tea-supplied.came': { en: 'Tea came from {name} at {at:time}', es: 'El té vino de {name} a las {at:time}' },
  'tea-supplied.noFile': { en: '{said} without its statement on file.', es: '{said} sin su declaración archivada.' },
  'tea-supplied.onFile': { en: '{said} with its statement on file.', es: '{said} con su declaración archivada.' },
  'contact-allowed.theCrop': { en: 'the crop', es: 'el cultivo' },
  'contact-allowed.outside': {
    en: '{crop} does not fall under the rule on contact.',
    es: '{crop} no cae bajo la regla de contacto.',
  },
  'contact-allowed.untouched': {
    en: 'The tea did not touch what is eaten of {crop}.',
    es: 'El té no tocó lo que se come de {crop}.',
  },
  'contact-allowed.noAnimal': {
    en: 'Nothing of animal origin is in this tea.',
    es: 'No hay nada de origen animal en este té.',
  },
  'contact-allowed.sprouts': { en: ', seed for sprouts', es: ', semilla para germinados' },
  'contact-allowed.touched': {
    en: 'Untreated tea{because:more} touched what is eaten of {crop}{sprouts}: do not harvest it for eating raw before you have spoken with the certifier.',
    es: 'Té sin tratar{because:more} tocó lo que se come de {crop}{sprouts}: no lo coseche para comer crudo antes de hablar con la certificadora.',
  },
  'contact-allowed.splash': {
    en: 'Untreated tea{because:more} was put on the ground of {crop} with edible parts near it: contact afterwards has to be kept low.',
    es: 'Se puso té sin tratar{because:more} en el suelo de {crop} con partes comestibles cerca: el contacto posterior tiene que mantenerse bajo.',
  },
  'contact-allowed.presenceUnknown': {
    en: 'Untreated tea{because:more} was put on {crop}; whether edible parts were there is not recorded.',
    es: 'Se puso té sin tratar{because:more} en {crop}; no está anotado si había partes comestibles.',
  },
  'contact-allowed.treatedContact': {
    en: 'Treated tea touched what is eaten of {crop}: with compost treatment, contact has to be kept low; only a process that meets the stricter standard allows any manner.',
    es: 'Té tratado tocó lo que se come de {crop}: con tratamiento por compostaje, el contacto tiene que mantenerse bajo; solo un proceso que cumple el estándar más estricto permite cualquier forma.',
  },
  'contact-allowed.treated': {
    en: 'Treated tea on {crop}, with contact kept low.',
    es: 'Té tratado en {crop}, con el contacto bajo.',
  },
  'contact-allowed.openSplash': {
    en: 'Whether this tea counts as treated is open{because:more}, and edible parts of {crop} were near: contact afterwards has to be kept low.',
    es: 'Queda abierto si este té cuenta como tratado{because:more}, y había partes comestibles de {crop} cerca: el contacto posterior tiene que mantenerse bajo.',
  },
  'contact-allowed.didTouch': { en: 'touched', es: 'tocó' },
  'contact-allowed.mayTouch': { en: 'may have touched', es: 'pudo tocar' },
  'contact-allowed.open': {
    en: 'Whether this tea counts as treated is open{because:more}, and it {meeting} what is eaten of {crop}.',
    es: 'Queda abierto si este té cuenta como tratado{because:more}, y {meeting} lo que se come de {crop}.',
  },
  'contact-allowed.wetted': {
    en: 'Compost was wetted; no crop was touched.',
    es: 'Se mojó compost; no se tocó ningún cultivo.',
  },
  'contact-allowed.batchUnknown': {
    en: 'Which batch this tea came from is not recorded.',
    es: 'No está anotado de qué lote vino este té.',
  },
  'contact-allowed.more': { en: 'Other plantings were treated alike.', es: 'Otras siembras se trataron igual.' },
  'contact-allowed.because': { en: '({because:semi})', es: '({because:semi})' },
} as const satisfies Messages;
