import type { Messages } from '../message.ts';

/** Treated or untreated, and tests of tea. */
export const treatmentMessages = {
  'treatment-status.noAnimal': {
    en: 'Nothing of animal origin is in it: the rule on animal materials does not reach it.',
    es: 'No lleva nada de origen animal: la regla sobre materia animal no lo alcanza.',
  },
  'treatment-status.treated': {
    en: 'Counts as treated: its animal materials have their treatment record, and no E. coli was detected in its water. Contact with the crop is still kept low.',
    es: 'Cuenta como tratado: su materia animal tiene su registro de tratamiento, y no se detectó E. coli en su agua. El contacto con el cultivo se mantiene bajo igual.',
  },
  'treatment-status.untreated': {
    en: 'Counts as untreated, because {because:semi}: keep it off the crop. No test of the tea changes that.',
    es: 'Cuenta como sin tratar, porque {because:semi}: no deje que toque el cultivo. Ningún análisis del té cambia eso.',
  },
  'treatment-status.open': {
    en: 'Whether it counts as treated is open: {because:semi}. Until then keep it off the crop.',
    es: 'Queda abierto si cuenta como tratado: {because:semi}. Hasta entonces no deje que toque el cultivo.',
  },
  'treatment-status.nothing': { en: 'Nothing is in the water yet.', es: 'Todavía no hay nada en el agua.' },
  'treatment.holdsUnknown': { en: 'what {name} holds is not known', es: 'no se sabe qué lleva {name}' },
  'treatment.pileNot': {
    en: 'the records of the pile of {name} do not show the treatment',
    es: 'los registros de la pila de {name} no muestran el tratamiento',
  },
  'treatment.pileOpen': { en: 'whether {name} was treated is not on record', es: 'no está anotado si {name} se trató' },
  'treatment.noPaper': {
    en: 'no current record of the treatment of {name} is there',
    es: 'no hay registro vigente del tratamiento de {name}',
  },
  'treatment.sourceUnknown': {
    en: 'the source of its water is not recorded',
    es: 'la fuente de su agua no está anotada',
  },
  'treatment.surface': {
    en: 'its water is untreated surface water ({code})',
    es: 'su agua es agua superficial sin tratar ({code})',
  },
  'treatment.coli': { en: 'E. coli was detected in its water ({code})', es: 'se detectó E. coli en su agua ({code})' },
  'treatment.noTest': {
    en: 'no current test of its water ({code}) is there',
    es: 'no hay análisis vigente de su agua ({code})',
  },
  'treatment.elsewhere': {
    en: 'it was brewed elsewhere: ask for the statement of the brewer',
    es: 'se preparó en otra parte: pida la declaración de quien lo preparó',
  },
  'treatment.nutrient': { en: 'whether a nutrient was added is not known', es: 'no se sabe si se añadió un nutriente' },
  'treatment.aLot': { en: 'a lot that is not recorded', es: 'un lote que no está anotado' },
  'treatment.names': { en: '{names:and}', es: '{names:and}' },
  'origin.unknown': {
    en: 'whether {name} is of animal origin is not known',
    es: 'no se sabe si {name} es de origen animal',
  },
  'origin.unknownOf': {
    en: 'whether {names:and} is of animal origin is not known',
    es: 'no se sabe si {names:and} es de origen animal',
  },
  'raw.lotUnknown': { en: 'a lot in it is not recorded', es: 'un lote que lleva no está anotado' },
  'raw.manure': { en: '{name} counts as raw manure', es: '{name} cuenta como estiércol crudo' },
  'raw.notComposted': {
    en: 'whether {name} was composted as asked is not on record',
    es: 'no está anotado si {name} se compostó como se pide',
  },
  'raw.noPaper': {
    en: 'no record shows how {name} was composted',
    es: 'ningún registro muestra cómo se compostó {name}',
  },
  'raw.additive': {
    en: 'it holds {additives} and two good tests of the system are not there',
    es: 'lleva {additives} y no están los dos análisis buenos del sistema',
  },
  'raw.both': { en: '{why}, and {also}', es: '{why}, y {also}' },
  'raw.batchUnknown': { en: 'the batch is not recorded', es: 'el lote no está anotado' },
  'additive-tested.none': { en: 'No additive is in this tea.', es: 'Este té no lleva aditivos.' },
  'additive-tested.bad': {
    en: 'Tea with {what}: the test of {code} on {on:day} was above {coli} E. coli or {enterococci} enterococci in 100 mL. Keep 120 or 90 days to the harvest, and find the cause.',
    es: 'Té con {what}: el análisis de {code} del {on:day} pasó de {coli} de E. coli o {enterococci} de enterococos en 100 mL. Guarde 120 o 90 días hasta la cosecha, y busque la causa.',
  },
  'additive-tested.proven': {
    en: 'Tea with {what}: the last {needed} tests of this system were within {coli} E. coli and {enterococci} enterococci in 100 mL.',
    es: 'Té con {what}: los últimos {needed} análisis de este sistema estaban dentro de {coli} de E. coli y {enterococci} de enterococos en 100 mL.',
  },
  'additive-tested.pending': {
    en: 'Tea with {what}: the result of a sample is pending. Until then 120 or 90 days to the harvest are kept.',
    es: 'Té con {what}: el resultado de una muestra está pendiente. Hasta entonces se guardan 120 o 90 días hasta la cosecha.',
  },
  'additive-tested.open': {
    en: 'Tea with {what}: a result is missing or does not tell whether it is within the limits. Until then 120 or 90 days to the harvest are kept.',
    es: 'Té con {what}: falta un resultado o no dice si está dentro de los límites. Hasta entonces se guardan 120 o 90 días hasta la cosecha.',
  },
  'additive-tested.tooFew': {
    en: 'Tea with {what}: {n} of {needed} good tests of this system are there, so 120 or 90 days to the harvest are kept.',
    es: 'Té con {what}: hay {n} de {needed} análisis buenos de este sistema, así que se guardan 120 o 90 días hasta la cosecha.',
  },
  'additive-tested.own': {
    en: 'Tea with {what}: the test of {code} on {on:day} was above {coli} E. coli or {enterococci} enterococci in 100 mL. Find the cause.',
    es: 'Té con {what}: el análisis de {code} del {on:day} pasó de {coli} de E. coli o {enterococci} de enterococos en 100 mL. Busque la causa.',
  },
} as const satisfies Messages;
