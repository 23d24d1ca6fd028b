import type { Messages } from '../message.ts';

/** Own compost. */
export const compostMessages = {
  'compost-organic.growing': {
    en: 'Worm compost begun on {start:day} is still growing.',
    es: 'El compost de lombriz empezado el {start:day} sigue en marcha.',
  },
  'compost-organic.wormAge': {
    en: 'Worm compost was {age} days old when finished',
    es: 'El compost de lombriz tenía {age} días al terminarse',
  },
  'compost-organic.wormYoung': {
    en: '{said}; the least in any system is {wormLeastDays}.',
    es: '{said}; lo menos en cualquier sistema es {wormLeastDays}.',
  },
  'compost-organic.wormSystem': {
    en: '{said}: enough for some systems (60 days in a continuous flow reactor, 4 months in containers indoors), not for windrows outdoors (12 months). Show the certifier which it was.',
    es: '{said}: bastante para algunos sistemas (60 días en un reactor de flujo continuo, 4 meses en recipientes bajo techo), no para camellones al aire libre (12 meses). Muestre a la certificadora cuál fue.',
  },
  'compost-organic.plantOnly': {
    en: 'Nothing of animal origin went in: plant material need not be heated.',
    es: 'No entró nada de origen animal: la materia vegetal no necesita calor.',
  },
  'compost-organic.passive': {
    en: 'A pile that is neither turned nor aerated is not among the processes of the regulation: it counts as raw manure, with 120 or 90 days to the harvest.',
    es: 'Una pila que no se voltea ni se airea no está entre los procesos de la norma: cuenta como estiércol crudo, con 120 o 90 días hasta la cosecha.',
  },
  'compost-organic.asked': {
    en: '{needed} days in a row between {leastF:figure} and {mostF:figure} °F{with:more}',
    es: '{needed} días seguidos entre {leastF:figure} y {mostF:figure} °F{with:more}',
  },
  'compost-organic.counts': {
    en: 'It counts as raw manure, with 120 or 90 days to the harvest.',
    es: 'Cuenta como estiércol crudo, con 120 o 90 días hasta la cosecha.',
  },
  'compost-organic.ratio': {
    en: 'The mix began at {carbonToNitrogen:figure}:1; the range is {least}:1 to {most}:1. {counts}',
    es: 'La mezcla empezó en {carbonToNitrogen:figure}:1; el margen es de {least}:1 a {most}:1. {counts}',
  },
  'compost-organic.notReached': {
    en: 'The records show {bestDays} {bestDays#such day|such days} in a row{and:more}; asked are {asked}. {counts}',
    es: 'Los registros muestran {bestDays} {bestDays#día así seguido|días así seguidos}{and:more}; se piden {asked}. {counts}',
  },
  'compost-organic.noRatio': {
    en: 'The C:N of the mix at the start is not recorded.',
    es: 'El C:N de la mezcla al empezar no está anotado.',
  },
  'compost-organic.reached': {
    en: 'The records show {asked}, and {carbonToNitrogen:figure}:1 at the start.',
    es: 'Los registros muestran {asked}, y {carbonToNitrogen:figure}:1 al empezar.',
  },
  'compost-produce.plantOnly': { en: 'Nothing of animal origin went in.', es: 'No entró nada de origen animal.' },
  'compost-produce.worm': { en: 'Worm compost', es: 'El compost de lombriz' },
  'compost-produce.passive': {
    en: 'A pile that is neither turned nor aerated',
    es: 'Una pila que no se voltea ni se airea',
  },
  'compost-produce.otherProcess': {
    en: '{how} is none of the processes named: only a record that its own process is scientifically valid makes it treated. Until then treat it as untreated and keep it off the crop.',
    es: '{how} no es ninguno de los procesos nombrados: solo un registro de que su propio proceso es científicamente válido lo hace tratado. Hasta entonces trátelo como sin tratar y no deje que toque el cultivo.',
  },
  'compost-produce.notReached': {
    en: 'The records show {bestDays} {bestDays#such day|such days}{and:more}; asked are {asked}. It counts as untreated: keep it off the crop.',
    es: 'Los registros muestran {bestDays} {bestDays#día así|días así}{and:more}; se piden {asked}. Cuenta como sin tratar: no deje que toque el cultivo.',
  },
  'compost-produce.notCured': {
    en: 'The records show {asked}; from when the compost was cured is not recorded.',
    es: 'Los registros muestran {asked}; no está anotado desde cuándo maduró el compost.',
  },
  'compost-produce.reached': {
    en: 'The records show {asked}, and curing after it.',
    es: 'Los registros muestran {asked}, y la maduración después.',
  },
  'compost-produce.askedTurned': {
    en: '{needed} days at {leastF:figure} °F or more with {turnings} {turnings#turning|turnings}',
    es: '{needed} días a {leastF:figure} °F o más con {turnings} {turnings#volteo|volteos}',
  },
  'compost-produce.asked': {
    en: '{needed} days in a row at {leastF:figure} °F or more',
    es: '{needed} días seguidos a {leastF:figure} °F o más',
  },
  'compost.withTurnings': {
    en: 'with {turnings} {turnings#turning|turnings}',
    es: 'con {turnings} {turnings#volteo|volteos}',
  },
  'compost.andTurnings': {
    en: 'and {turnings} {turnings#turning|turnings}',
    es: 'y {turnings} {turnings#volteo|volteos}',
  },
  'compost.running': {
    en: 'The pile is not finished; asked are {asked}.',
    es: 'La pila no está terminada; se piden {asked}.',
  },
  'compost.unsure': {
    en: 'The records show {bestDays} {bestDays#such day|such days}{and:more}; asked are {asked}. A reading or a turning about midnight may belong to either day, and this hangs on it.',
    es: 'Los registros muestran {bestDays} {bestDays#día así|días así}{and:more}; se piden {asked}. Una lectura o un volteo cerca de la medianoche puede ser de uno u otro día, y esto depende de ello.',
  },
  'compost.missed': {
    en: 'No temperature is recorded for {missedDays} of the days; asked are {asked}.',
    es: 'No hay temperatura anotada para {missedDays} de los días; se piden {asked}.',
  },
  'compost-organic.ownRatio': {
    en: 'The mix began at {carbonToNitrogen:figure}:1; the range of your rule book is {least}:1 to {most}:1.',
    es: 'La mezcla empezó en {carbonToNitrogen:figure}:1; el margen de su libro de reglas es de {least}:1 a {most}:1.',
  },
  'compost.own': {
    en: 'The records show {bestDays} {bestDays#such day|such days}{and:more}; your rule book asks for {asked}.',
    es: 'Los registros muestran {bestDays} {bestDays#día así|días así}{and:more}; su libro de reglas pide {asked}.',
  },
} as const satisfies Messages;
