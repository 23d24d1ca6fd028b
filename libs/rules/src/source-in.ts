import type { Language } from './words/index.ts';

/** What citations say beside sections and names, longest first where one holds another. */
const spanish: readonly (readonly [string, string])[] = [
  ['air and sunlight neutralize free chlorine over time', 'el aire y el sol neutralizan el cloro libre con el tiempo'],
  ['chloraminated water standing may take days', 'el agua con cloramina en reposo puede tardar días'],
  ['ascorbic acid ineffective on monochloramine', 'el ácido ascórbico no actúa sobre la monocloramina'],
  [
    'saturation by the Benson & Krause equations as published by USGS',
    'saturación según Benson y Krause, publicada por USGS',
  ],
  ['sufficient detail to be readily understood and audited', 'con el detalle para entenderse y auditarse bien'],
  ['contact of organic crops with prohibited substances', 'contacto de cultivos orgánicos con sustancias prohibidas'],
  ['commingling and contact with prohibited substances', 'mezcla y contacto con sustancias prohibidas'],
  ['documentation of bought treated amendments', 'documentos de enmiendas tratadas compradas'],
  ['own records of time, temperature and turnings', 'registros propios de tiempo, temperatura y volteos'],
  ['records are made when the act is done', 'se anota cuando se hace'],
  ['place and rate of what is applied', 'lugar y dosis de lo aplicado'],
  ['rate of what is applied', 'dosis de lo aplicado'],
  ['the list of substances in the plan', 'la lista de sustancias del plan'],
  [
    'the 15 days of a turned pile do not have to be consecutive',
    'los 15 días de una pila volteada no tienen que ser seguidos',
  ],
  [
    '126 E. coli and 33 enterococci in 100 mL second-hand, as a laboratory prints the two for bathing water',
    '126 E. coli y 33 enterococos en 100 mL de segunda mano, como un laboratorio da los dos para agua de baño',
  ],
  [
    'it builds on the Compost Tea Task Force report of 2004',
    'se basa en el informe del Compost Tea Task Force de 2004',
  ],
  ['NOSB Compost Tea Task Force report, 2004', 'informe del Compost Tea Task Force de la NOSB, 2004'],
  [
    'NOSB formal recommendation of 2006-11-09 (vote 14 to 0;',
    'recomendación formal de la NOSB del 2006-11-09 (14 votos a 0;',
  ],
  ['NOSB recommendation', 'recomendación de la NOSB'],
  ['advisory, never codified', 'consultiva, nunca codificada'],
  ['advisory', 'consultiva'],
  ['for tea with additives', 'para té con aditivos'],
  ['potable water for tea', 'agua potable para el té'],
  ['clean equipment', 'equipo limpio'],
  ['worm compost', 'lombricompost'],
  ['its beginning read', 'su comienzo leído'],
  ['its cover page read', 'su portada leída'],
  ['both read', 'ambos leídos'],
  ['read 20', 'leído 20'],
  ['the days from memory', 'los días de memoria'],
  ['from memory', 'de memoria'],
  ['as told in', 'según'],
  ['and the National List', 'y la Lista Nacional'],
  ['in a secondary copy', 'en una copia secundaria'],
  ["in a state's adoption", 'como la adoptó un estado'],
  ["the certifier's letter", 'la carta de la certificadora'],
  ['correction of what was identified', 'corrección de lo señalado'],
  ['upon hiring, and at least once annually', 'al contratar, y al menos una vez al año'],
  ['date, topics, persons', 'fecha, temas, personas'],
  [
    'it names no tolerance: the percentages are common practice, no source',
    'no nombra tolerancia: los porcentajes son práctica común, sin fuente',
  ],
  ['how long a test counts is common practice, no source', 'cuánto vale un análisis es práctica común, sin fuente'],
  [
    'the days until the review are common practice, no source',
    'los días hasta la revisión son práctica común, sin fuente',
  ],
  ['the hours are common practice, no source', 'las horas son práctica común, sin fuente'],
  ['the percentage is common practice, no source', 'el porcentaje es práctica común, sin fuente'],
  ['common practice, no source', 'práctica común, sin fuente'],
  ['fill about 6 in below the opening', 'llenar hasta unas 6 in bajo la abertura'],
  ['15 to 20 min of air', '15 a 20 min de aire'],
  ['(the hours)', '(las horas)'],
  ['(of handling)', '(de manejo)'],
  ['USDA Forest Service tech tip', 'nota técnica del USDA Forest Service'],
  ['a water utility', 'un servicio de agua'],
  ['2015 edition', 'edición de 2015'],
  ['as of 20', 'al 20'],
  [' and ', ' y '],
];

/**
 * A citation in a language: sections, names and dates as they are, what is said beside them in words; what has no words here
 * (an operation's own text) stays as written.
 */
export const sourceIn = (citation: string, language: Language): string =>
  language === 'es' ? spanish.reduce((text, [en, es]) => text.replaceAll(en, es), citation) : citation;
