import type { Messages } from '../message.ts';

/** Lots: approval, date, hold, recall, account. */
export const inputsMessages = {
  'input-approved.lotUnknown': {
    en: '{used}: which material lot {code} holds is not recorded.',
    es: '{used}: no está anotado qué material tiene el lote {code}.',
  },
  'input-approved.dayUnsure': {
    en: '{used}: whether {name} was approved depends on the day, which is not sure.',
    es: '{used}: si {name} estaba aprobado depende del día, que no es seguro.',
  },
  'input-approved.ownCompost': {
    en: "{name} is compost of the farm's own making, judged by the rules on compost.",
    es: '{name} es compost hecho en la finca, juzgado por las reglas sobre compost.',
  },
  'input-approved.withdrawn': { en: '; one was withdrawn', es: '; una se retiró' },
  'input-approved.none': {
    en: '{used}: no approval of {name} was in force{ended}.',
    es: '{used}: no había ninguna aprobación de {name} vigente{ended}.',
  },
  'input-approved.ownOnly': {
    en: "{used}: {name} stands only on the operation's own list; ask the certifier.",
    es: '{used}: {name} está solo en la lista propia de la operación; pregunte a la certificadora.',
  },
  'input-approved.restriction': {
    en: 'It carries a restriction: {restriction}.',
    es: 'Lleva una restricción: {restriction}.',
  },
  'input-approved.approved': {
    en: '{used}: {name} was approved ({reference}).{restriction:more}',
    es: '{used}: {name} estaba aprobado ({reference}).{restriction:more}',
  },
  'input-in-date.noDate': { en: 'The lot carries no date.', es: 'El lote no lleva fecha.' },
  'input-in-date.said': {
    en: '{used}; the date on lot {code} is {expires:day}.',
    es: '{used}; la fecha del lote {code} es el {expires:day}.',
  },
  'input-in-date.dayUnsure': { en: '{said} The day of use is not sure.', es: '{said} El día de uso no es seguro.' },
  'input-not-held.never': { en: 'The lot was never held.', es: 'El lote nunca se retuvo.' },
  'input-not-held.unsure': {
    en: '{used}: whether lot {code} was held then depends on times that are not exact.',
    es: '{used}: si el lote {code} estaba retenido entonces depende de horas que no son exactas.',
  },
  'input-not-held.held': {
    en: '{used}; lot {code} was held since {since:time} ({reason}).',
    es: '{used}; el lote {code} estaba retenido desde las {since:time} ({reason}).',
  },
  'input-not-held.free': {
    en: '{used}; lot {code} was not held then.',
    es: '{used}; el lote {code} no estaba retenido entonces.',
  },
  'input-not-held.unused': { en: 'Not used in tea.', es: 'No se usó en té.' },
  'input-recalled.none': { en: 'The lot was not recalled.', es: 'El lote no fue retirado por el proveedor.' },
  'input-recalled.said': {
    en: 'Lot {code} was recalled at {at:time} ({reason})',
    es: 'El lote {code} fue retirado por aviso a las {at:time} ({reason})',
  },
  'input-recalled.unused': {
    en: '{said}; it is not used in tea: keep it out.',
    es: '{said}; no se usó en té: déjelo fuera.',
  },
  'input-recalled.andMore': { en: 'and {n} more', es: 'y {n} más' },
  'input-recalled.used': {
    en: '{said}; it was {shown:list}{more:more}. Follow it to its batches, fields and harvests.',
    es: '{said}; fue {shown:list}{more:more}. Sígalo hasta sus lotes de té, campos y cosechas.',
  },
  'lot-balance.counted': {
    en: 'Counted {counted} at {at:time} where the records leave {balance}',
    es: 'Se contaron {counted} a las {at:time} donde los registros dejan {balance}',
  },
  'lot-balance.gap': {
    en: '{said}: {gap} are not accounted for, {share:figure} % of what was received is let stand.',
    es: '{said}: {gap} quedan sin explicar, se admite el {share:figure} % de lo recibido.',
  },
  'lot-balance.tooMuch': {
    en: 'More went out of lot {code} than came in: {over} too much by {at:time}',
    es: 'Salió más del lote {code} de lo que entró: {over} de más hasta las {at:time}',
  },
  'lot-balance.letStand': {
    en: '{said}, within the {share:figure} % that is let stand.',
    es: '{said}, dentro del {share:figure} % que se admite.',
  },
  'lot-balance.more': {
    en: '{n} more {n#entry says|entries say} so.',
    es: '{n} {n#asiento más dice|asientos más dicen} lo mismo.',
  },
  'lot-balance.unread': {
    en: '{n} {n#amount cannot|amounts cannot} be turned into {unit}: record the worth of the measure, or the weight.',
    es: '{n} {n#cantidad no se puede|cantidades no se pueden} convertir a {unit}: anote cuánto vale la medida, o el peso.',
  },
  'lot-balance.left': { en: '{left} of {received} are left.', es: 'Quedan {left} de {received}.' },
  'use.in': { en: 'Used in {code} on {on:day}', es: 'Usado en {code} el {on:day}' },
  'use.on': { en: 'Used on {on:day}', es: 'Usado el {on:day}' },
  'use.inLower': { en: 'used in {code} on {on:day}', es: 'usado en {code} el {on:day}' },
  'use.onLower': { en: 'used on {on:day}', es: 'usado el {on:day}' },
} as const satisfies Messages;
