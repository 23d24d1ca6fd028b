import { tellerOf, type Sentence } from './sentences.ts';

/** Why a part of a trace ended where it did, and what the records leave open: each a part of a sentence. */
export const traceSentences: readonly Sentence[] = [
  // Where it ended.
  ['still in stock', 'sigue en bodega'],
  ['still in stock by the books', 'sigue en bodega según los libros'],
  ['still in the pile', 'sigue en la pila'],
  ['still in the tank', 'sigue en el tanque'],
  ['left in the tank when the batch was closed', 'quedaba en el tanque cuando se cerró el lote de té'],
  ['thrown away from stock', 'tirado de la bodega'],
  ['disposed from the tank', 'tirado del tanque'],
  ['lost from the tank', 'perdido del tanque'],
  ['supplied from the tank', 'entregado del tanque'],
  ['supplied to {name}', 'entregado a {name}'],
  ['dumped from the load', 'tirado de la carga'],
  ['carried over, into which batch was not written', 'pasado a otro lote de té; a cuál no se anotó'],
  ['drawn; no application of it is recorded', 'sacado; no hay aplicación anotada'],
  // What is left open.
  [
    'tea supplied to {name}: where they used it is in their records',
    'té entregado a {name}; dónde lo usaron está en sus registros',
  ],
  [
    'tea received from {name}: what went into it is in their records',
    'té recibido de {name}; qué llevaba está en sus registros',
  ],
  ['no record says from which batch this load was drawn', 'ningún registro dice de qué lote de té se sacó esta carga'],
  [
    'what part of the tank this load was cannot be told: more was drawn than recorded as filled',
    'no se sabe qué parte del tanque era esta carga; se sacó más de lo que se anotó al llenar',
  ],
  ['no record describes this lot', 'ningún registro describe este lote'],
  [
    'no record describes this lot yet: where it went is shown, how much cannot be told',
    'ningún registro describe todavía este lote; se muestra adónde fue, cuánto no se sabe',
  ],
  ['no record describes this field', 'ningún registro describe este campo'],
  ['no record describes this planting', 'ningún registro describe esta siembra'],
  ['no record says what this pile was started with', 'ningún registro dice con qué se empezó esta pila'],
  [
    'a loop: it was wetted with tea in which it may be itself; followed once',
    'un círculo: se mojó con té que puede llevarlo a él mismo; se sigue una vez',
  ],
  [
    'a loop: tea made of this lot was put onto it again, and counts with what was used of it later',
    'un círculo: té hecho de este lote se le puso otra vez, y cuenta con lo que después se usó de él',
  ],
  [
    'how much of the lot this was cannot be told in the lot’s unit',
    'cuánto del lote era esto no se puede decir en la unidad del lote',
  ],
  [
    'its lots were weighed in units that cannot be compared: shared out equally',
    'sus lotes se pesaron en unidades que no se pueden comparar; se reparte por igual',
  ],
  ['the application names no target', 'la aplicación no nombra ningún destino'],
  [
    'volume and area of its targets are not all known: shared out equally',
    'no se conocen el volumen y la superficie de todos sus destinos; se reparte por igual',
  ],
  [
    'several applications name this load: shared out equally',
    'varias aplicaciones nombran esta carga; se reparte por igual',
  ],
  ['more of it was used than was received', 'se usó más de lo que se recibió'],
  [
    'names no planting and none stood there: every later harvest of that ground counts as reached',
    'no nombra siembra y no había ninguna; toda cosecha posterior de ese terreno cuenta como alcanzada',
  ],
  [
    'the harvest names no planting: it counts as reached by its ground',
    'la cosecha no nombra siembra; cuenta como alcanzada por su terreno',
  ],
  [
    'the harvest names no planting: whatever reached its ground counts',
    'la cosecha no nombra siembra; cuenta todo lo que llegó a su terreno',
  ],
  [
    'applied to the larger ground that this lies in: how much came here cannot be told, all of it is counted',
    'aplicado al terreno mayor en que está este; cuánto llegó aquí no se sabe, se cuenta todo',
  ],
];

const tell = tellerOf(traceSentences);

/** Why, in the reader's language; in English as it came where no Spanish is known. */
export const traceReason = (language: 'en' | 'es', why: string): string =>
  (language === 'es' ? tell(why) : null) ?? why;
