import { catalogue, type Language } from '../../words/catalogue.ts';

/** Words of what happens with things. */
export const happenedWords = catalogue(
  {
    title: 'Record what happened with it',
    what: 'What happened',
    when: 'When',
    whenHelp: 'Left empty: now.',
    recipes: 'Recipes',
    newRecipe: 'A new recipe',
    nextEdition: 'Its next edition',
    edition: (n: number) => `edition ${String(n)}`,
    giveUp: 'Take it out of use',
    givenUp: (reason: string) => `out of use: ${reason}`,
    piles: 'Compost piles',
    office: 'From the office',
    officeIntro: 'Letters, inspections, tea from others, a new pile, what changed with the operation.',
    finished: 'finished',
    restLeadsNowhere: 'Without the tea that it went into, the trace ends here. Keep it so?',
    restAboveLoad: 'By the books the load did not have that much left. Keep it?',
  },
  {
    title: 'Anotar lo que pasó con esto',
    what: 'Qué pasó',
    when: 'Cuándo',
    whenHelp: 'Si queda vacío: ahora.',
    recipes: 'Recetas',
    newRecipe: 'Una receta nueva',
    nextEdition: 'Su próxima edición',
    edition: (n) => `edición ${String(n)}`,
    giveUp: 'Sacarla de uso',
    givenUp: (reason) => `fuera de uso: ${reason}`,
    piles: 'Pilas de compost',
    office: 'De la oficina',
    officeIntro: 'Cartas, inspecciones, té de otros, una pila nueva, lo que cambió en la finca.',
    finished: 'terminada',
    restLeadsNowhere: 'Sin el té al que pasó, el rastreo termina aquí. ¿Dejarlo así?',
    restAboveLoad: 'Según las cuentas no quedaba tanto de la carga. ¿Dejarlo así?',
  },
);

type Pair = readonly [en: string, es: string];

const names: Readonly<Record<string, Pair>> = {
  'vessel.cleaned': ['cleaned', 'se lavó'],
  'equipment.cleaned': ['cleaned', 'se lavó'],
  'equipment.calibrated': ['output measured', 'se midió cuánto aplica'],
  'equipment.used': ['used for something else than tea', 'se usó para algo que no es té'],
  'instrument.calibrated': ['calibrated', 'se calibró'],
  'instrument.checked': ['checked', 'se comprobó'],
  'source.tested': ['water tested', 'se analizó el agua'],
  'source.documented': ['a paper about it', 'un papel sobre el agua'],
  'source.delivered': ['water delivered', 'se trajo agua'],
  'material.approved': ['approved', 'se aprobó'],
  'material.withdrawn': ['approval withdrawn', 'se retiró la aprobación'],
  'material.documented': ['a paper about it', 'un papel sobre el material'],
  'planting.started': ['sown or planted', 'se sembró o plantó'],
  'planting.ended': ['a planting ended', 'terminó una siembra'],
  'harvest.made': ['harvested', 'se cosechó'],
  'harvest.shipped': ['part of a harvest left', 'salió parte de una cosecha'],
  'field.exposed': ['a prohibited substance reached it', 'le llegó una sustancia prohibida'],
  'draw.ended': ['rest of a load', 'resto de una carga'],
  'batch.sampled': ['sample taken', 'se tomó una muestra'],
  'batch.analysed': ['laboratory result', 'resultado de laboratorio'],
  'tea.supplied': ['tea given to others', 'té entregado a otros'],
  'tea.received': ['tea received from others', 'té recibido de otros'],
  'person.trained': ['trained', 'capacitación'],
  'pile.started': ['a compost pile started', 'se empezó una pila de compost'],
  'pile.measured': ['temperature taken', 'se midió la temperatura'],
  'pile.turned': ['turned', 'se volteó'],
  'pile.added': ['something added', 'se le agregó algo'],
  'pile.finished': ['finished: becomes a lot', 'terminada: pasa a ser un lote'],
  'recipe.published': ['recipe', 'receta'],
  'recipe.retired': ['recipe out of use', 'receta fuera de uso'],
  'certifier.wrote': ['the certifier wrote', 'escribió la certificadora'],
  'certifier.notified': ['the certifier was told', 'se avisó a la certificadora'],
  'inspection.held': ['an inspection was held', 'hubo una inspección'],
  'operation.revised': ['certificate, address or height changed', 'cambió el certificado, la dirección o la altura'],
};

/** Why it is worth writing down, in a sentence or two: of those whose rule is not plain by itself. */
const whys: Readonly<Record<string, Pair>> = {
  'vessel.cleaned': [
    'Film left in a tank uses up the next tea’s air and may carry what grew in the last one. Mind the cleaner’s label; never mix cleaners.',
    'La película que queda gasta el aire del próximo té y puede llevar lo que creció en el anterior. Siga la etiqueta; nunca mezcle limpiadores.',
  ],
  'equipment.cleaned': [
    'What was in the sprayer before goes out with the tea. Mind the cleaner’s label; never mix cleaners.',
    'Lo que hubo antes en el equipo sale con el té. Siga la etiqueta; nunca mezcle limpiadores.',
  ],
  'equipment.calibrated': [
    'The rate on the record is only as good as the output measured.',
    'La dosis anotada vale lo que vale la medición.',
  ],
  'instrument.calibrated': [
    'A reading is no better than the probe; those since the last good check are doubted otherwise.',
    'Una lectura vale lo que vale el medidor; sin esto se duda de las últimas.',
  ],
  'instrument.checked': [
    'A check against something known shows how far the meter has drifted.',
    'Comprobarlo contra algo conocido muestra cuánto se ha desviado.',
  ],
  'source.tested': [
    'Water for tea is to have no generic E. coli detected in 100 mL. No result yet: leave it empty, and record it again with the result.',
    'En el agua para té no debe detectarse E. coli genérica en 100 mL. Si aún no hay resultado, déjelo vacío y anótelo otra vez cuando llegue.',
  ],
  'harvest.made': [
    'A harvest is what every trace ends in, and what days to harvest are counted to.',
    'En la cosecha termina todo rastreo, y hasta ella se cuentan los días.',
  ],
  'field.exposed': [
    'Tell the certifier at once; the record says when it was, and the 36 months count from it.',
    'Avise enseguida a la certificadora; el registro dice cuándo fue, y desde ahí cuentan los 36 meses.',
  ],
  'draw.ended': [
    'What is put back or carried over counts in that tank’s account and is traced on; what is dumped does not go missing. Tea that stood without air takes along what grew in it.',
    'Lo devuelto o pasado a otro té cuenta en ese tanque y se sigue rastreando; lo tirado no falta en la cuenta. El té que estuvo sin aire lleva consigo lo que creció en él.',
  ],
  'recipe.retired': [
    'No new batch is brewed by it. What was brewed by it keeps it.',
    'Ya no se prepara té con ella. Lo que se preparó con ella la conserva.',
  ],
  'pile.measured': [
    'The days at 131 °F and above are counted from these; a day without a reading cannot be told.',
    'Con esto se cuentan los días a 131 °F o más; de un día sin medir no se puede decir nada.',
  ],
};

const pick = (pair: Pair, language: Language): string => pair[language === 'es' ? 1 : 0];

/** What happened, as a list of it says. */
export const happenedName = (type: string, language: Language): string => pick(names[type] ?? [type, type], language);

/** Why it is asked; null where it is plain. */
export const happenedWhy = (type: string, language: Language): string | null => {
  const pair = whys[type];
  return pair === undefined ? null : pick(pair, language);
};
