/** What a letter says, in both languages. No text of a record and no person's name goes into a letter. */
interface Words {
  readonly subject: (operation: string, first: string, more: number) => string;
  readonly due: string;
  readonly broken: string;
  readonly open: string;
  readonly why: string;
  readonly caution: string;
}

export const letterWords: Readonly<Record<'en' | 'es', Words>> = {
  en: {
    subject: (operation, first, more) => `${operation}: ${first}${more === 0 ? '' : `, and ${String(more)} more`}`,
    due: 'Due:',
    broken: 'Outside a limit, or not met:',
    open: 'What was recorded, and what to do next, stands in Furrowmark. What was done meanwhile and is still on a phone without reception is not known here.',
    why: 'You get this letter because you asked for it. Under More, “Alerts by e-mail”, you change or end it.',
    caution:
      'Electricity beside wet tanks, chlorine and what may live in tea deserve care, at night above all. Labels, local codes and your certifier come first.',
  },
  es: {
    subject: (operation, first, more) => `${operation}: ${first}${more === 0 ? '' : `, y ${String(more)} más`}`,
    due: 'Por hacer:',
    broken: 'Fuera de un límite, o sin cumplir:',
    open: 'Lo anotado, y lo que sigue, está en Furrowmark. Lo que se hizo entretanto y sigue en un teléfono sin señal no se sabe aquí.',
    why: 'Recibe esta carta porque la pidió. En Más, «Avisos por correo», la cambia o la termina.',
    caution:
      'La electricidad junto a tanques mojados, el cloro y lo que puede vivir en el té piden cuidado, de noche sobre todo. Las etiquetas, las normas locales y su certificadora van primero.',
  },
};

/** What rules ask for, in Spanish; English comes from the rules. What is not here is shown in English. */
const spanish: Readonly<Record<string, string>> = {
  'record oxygen': 'anote el oxígeno',
  'look, smell and record': 'mire, huela y anote',
  'put the air on': 'ponga el aire',
  'get the air back on by this time': 'vuelva a poner el aire antes de esta hora',
  'add the first ingredient from this time on': 'ponga el primer ingrediente desde esta hora',
  'measure free chlorine again': 'mida otra vez el cloro libre',
  'measure total chlorine before the food goes in': 'mida el cloro total antes de poner el alimento',
  'treat the water and measure total chlorine': 'trate el agua y mida el cloro total',
  'draw the tea from this time on': 'saque el té desde esta hora',
  'draw the tea by this time': 'saque el té antes de esta hora',
  'apply the tea by this time': 'aplique el té antes de esta hora',
  'empty and clean the tank': 'vacíe y lave el tanque',
  'review and sign the batch': 'revise y firme el té',
  'tell the certifier': 'avise a la certificadora',
  'record what is missing': 'anote lo que falta',
  'harvest this ground from this day on': 'coseche este terreno desde este día',
  "record the laboratory's result": 'anote el resultado del laboratorio',
  'measure the pile every day': 'mida la pila cada día',
  'finish the worm compost': 'termine el compost de lombriz',
};

export const whatIn = (what: string, language: 'en' | 'es'): string =>
  language === 'es' ? (spanish[what] ?? what) : what;
