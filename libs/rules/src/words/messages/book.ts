import type { Messages } from '../message.ts';

/** The rule book, and words of the engine. */
export const bookMessages = {
  'rule-book-adopted.unheard': {
    en: 'The rule book adopted at {at:time} rests on a ruling of the certifier that is not on record: {names:semi}{more:more}. Record the letter; until then the entry counts as your own.',
    es: 'El libro de reglas adoptado a las {at:time} se apoya en una disposición de la certificadora que no está anotada: {names:semi}{more:more}. Anote la carta; hasta entonces la entrada cuenta como propia.',
  },
  'rule-book-adopted.looser': {
    en: 'The rule book adopted at {at:time} asks for less than a regulation: {looser:semi}{more:more}. The regulation still binds, whatever the rule book says.',
    es: 'El libro de reglas adoptado a las {at:time} pide menos que una norma: {looser:semi}{more:more}. La norma obliga igual, diga lo que diga el libro de reglas.',
  },
  'rule-book-adopted.change': {
    en: '{code} {ruleId} from {before} to {after}',
    es: '{code} {ruleId} de {before} a {after}',
  },
  'rule-book-adopted.changed': {
    en: 'The rule book written down at {written:time} holds from {from:time} and changed {n} earlier {n#outcome|outcomes}: {changes:semi}{more:more}. Signed reviews stay as they were.',
    es: 'El libro de reglas escrito a las {written:time} vale desde las {from:time} y cambió {n} {n#veredicto anterior|veredictos anteriores}: {changes:semi}{more:more}. Las revisiones firmadas quedan como estaban.',
  },
  'rule-book-adopted.none': {
    en: 'No rule book was adopted; the built-in limits hold.',
    es: 'No se adoptó ningún libro de reglas; valen los límites de partida.',
  },
  'rule-book-adopted.more': {
    en: '{n} more {n#adoption is|adoptions are} like it.',
    es: '{n} {n#adopción más está|adopciones más están} igual.',
  },
  'rule-book-adopted.all': {
    en: 'Every adoption names what is there, none asks for less than a regulation, and none changed an earlier outcome.',
    es: 'Cada adopción nombra lo que existe, ninguna pide menos que una norma, y ninguna cambió un veredicto anterior.',
  },
  'rule-book-adopted.noEffect': {
    en: 'Of the rule book adopted at {at:time}, this has no effect: {faults:semi}.',
    es: 'Del libro de reglas adoptado a las {at:time}, esto no tiene efecto: {faults:semi}.',
  },
  'loosened.off': { en: '{ruleId} is switched off', es: '{ruleId} está desactivada' },
  'loosened.severity': {
    en: '{ruleId} counts as {severity} instead of {own}',
    es: '{ruleId} cuenta como {severity} en vez de {own}',
  },
  'loosened.atLeast': {
    en: '{ruleId} {name} is {value}{unit} where the regulation asks for at least {asked}{unit}',
    es: '{ruleId} {name} es {value}{unit} donde la norma pide al menos {asked}{unit}',
  },
  'loosened.atMost': {
    en: '{ruleId} {name} is {value}{unit} where the regulation asks for at most {asked}{unit}',
    es: '{ruleId} {name} es {value}{unit} donde la norma pide a lo más {asked}{unit}',
  },
  'fault.noRule': { en: 'there is no rule “{ruleId}”', es: 'no existe la regla «{ruleId}»' },
  'fault.noParameter': { en: '{ruleId} has no parameter “{name}”', es: '{ruleId} no tiene el parámetro «{name}»' },
  'fault.value': { en: '{name} cannot be {given}', es: '{name} no puede ser {given}' },
  'severity.notice': { en: 'notice', es: 'aviso' },
  'severity.minor': { en: 'minor', es: 'menor' },
  'severity.major': { en: 'major', es: 'mayor' },
  'severity.critical': { en: 'critical', es: 'crítico' },
  'verdict.met': { en: 'met', es: 'se cumple' },
  'verdict.caution': { en: 'caution', es: 'con cuidado' },
  'verdict.broken': { en: 'broken', es: 'fuera del límite' },
  'verdict.due': { en: 'due', es: 'pendiente' },
  'verdict.unknown': { en: 'unknown', es: 'no se puede saber' },
  'verdict.notApplicable': { en: 'notApplicable', es: 'no corresponde' },
  'word.broken.regulation': { en: 'Not met', es: 'No se cumple' },
  'word.broken.certifier': { en: "Against the certifier's ruling", es: 'Contra lo dispuesto por la certificadora' },
  'word.broken.guideline': { en: 'Outside the guideline', es: 'Fuera de la guía' },
  'word.broken.ownPlan': { en: 'Not as the system plan promises', es: 'No como promete el plan del sistema' },
  'word.broken.practice': { en: 'Outside your limit', es: 'Fuera de su límite' },
  'word.met': { en: 'Met, as recorded', es: 'Se cumple, según lo anotado' },
  'word.within': { en: 'Within your limit', es: 'Dentro de su límite' },
  'word.caution': { en: 'Take care', es: 'Con cuidado' },
  'word.due': { en: 'Due', es: 'Pendiente' },
  'word.unknown': { en: 'Cannot tell', es: 'No se puede saber' },
  'word.notApplicable': { en: 'Does not apply', es: 'No corresponde' },
} as const satisfies Messages;
