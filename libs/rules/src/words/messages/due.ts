import type { Messages } from '../message.ts';

/** What is to be done, in the imperative. */
export const dueMessages = {
  'due.laboratory': { en: "record the laboratory's result", es: 'anote el resultado del laboratorio' },
  'due.airBack': { en: 'get the air back on by this time', es: 'vuelva a poner el aire antes de esta hora' },
  'due.drawBy': { en: 'draw the tea by this time', es: 'saque el té antes de esta hora' },
  'due.drawFrom': { en: 'draw the tea from this time on', es: 'saque el té desde esta hora' },
  'due.treatWater': { en: 'treat the water and measure total chlorine', es: 'trate el agua y mida el cloro total' },
  'due.measureTotal': {
    en: 'measure total chlorine before the food goes in',
    es: 'mida el cloro total antes de poner el alimento',
  },
  'due.measureFree': { en: 'measure free chlorine again', es: 'mida otra vez el cloro libre' },
  'due.airOn': { en: 'put the air on', es: 'ponga el aire' },
  'due.firstIngredient': {
    en: 'add the first ingredient from this time on',
    es: 'ponga el primer ingrediente desde esta hora',
  },
  'due.finishWorm': { en: 'finish the worm compost', es: 'termine el compost de lombriz' },
  'due.measurePile': { en: 'measure the pile every day', es: 'mida la pila cada día' },
  'due.harvestFrom': { en: 'harvest this ground from this day on', es: 'coseche este terreno desde este día' },
  'due.applyBy': { en: 'apply the tea by this time', es: 'aplique el té antes de esta hora' },
  'due.tellCertifier': { en: 'tell the certifier', es: 'avise a la certificadora' },
  'due.recordOxygen': { en: 'record oxygen', es: 'anote el oxígeno' },
  'due.look': { en: 'look, smell and record', es: 'mire, huela y anote' },
  'due.review': { en: 'review and sign the batch', es: 'revise y firme el té' },
  'due.recordMissing': { en: 'record what is missing', es: 'anote lo que falta' },
  'due.emptyTank': { en: 'empty and clean the tank', es: 'vacíe y lave el tanque' },
  'due.letter.ruling': {
    en: "answer the certifier's ruling {reference}",
    es: 'conteste la disposición {reference} de la certificadora',
  },
  'due.letter.request': {
    en: "answer the certifier's request {reference}",
    es: 'conteste la petición {reference} de la certificadora',
  },
  'due.letter.noncompliance': {
    en: "answer the certifier's notice of noncompliance {reference}",
    es: 'conteste el aviso de incumplimiento {reference} de la certificadora',
  },
  'due.letter.condition': {
    en: "answer the certifier's condition {reference}",
    es: 'conteste la condición {reference} de la certificadora',
  },
  'due.add': { en: 'add {names:list}', es: 'ponga {names:list}' },
  'due.calibrate': { en: 'calibrate or check the meter', es: 'calibre o revise el medidor' },
  'due.measureOutput': { en: 'measure the output of the equipment', es: 'mida la salida del equipo' },
  'due.cleanEquipment': {
    en: 'clean the equipment before tea goes through it',
    es: 'lave el equipo antes de que pase té',
  },
  'due.train': { en: 'train again by this day', es: 'capacite otra vez antes de este día' },
  'due.renewApproval': { en: 'renew the approval by this day', es: 'renueve la aprobación antes de este día' },
  'due.useUpLot': { en: 'use up the lot by this day', es: 'use el lote hasta este día' },
} as const satisfies Messages;
