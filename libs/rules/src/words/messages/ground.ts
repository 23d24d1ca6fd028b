import type { Messages } from '../message.ts';

/** Ground and harvests. */
export const groundMessages = {
  'harvest-interval.notForPeople': { en: 'The crop is not for people.', es: 'El cultivo no es para personas.' },
  'harvest-interval.said': {
    en: '{code} went on this ground on {applied:day} and {harvest} was harvested on {cut:day}, {days} days later',
    es: '{code} se aplicó a este terreno el {applied:day} y {harvest} se cosechó el {cut:day}, {days} días después',
  },
  'harvest-interval.leastOrMost': { en: '{least} or {most}', es: '{least} o {most}' },
  'harvest-interval.open': {
    en: '{said}. Whether {asked} days have to go by is open, because {why}.',
    es: '{said}. Queda abierto si tienen que pasar {asked} días, porque {why}.',
  },
  'harvest-interval.over': {
    en: '{said}; {asked} are asked for, because {why}: this harvest must not go out as organic food before the certifier has spoken.',
    es: '{said}; se piden {asked}, porque {why}: esta cosecha no debe salir como alimento orgánico antes de que hable la certificadora.',
  },
  'harvest-interval.bySoil': {
    en: '{least}, or {most} where what is eaten touches the soil,',
    es: '{least}, o {most} donde lo que se come toca el suelo,',
  },
  'harvest-interval.daysUnsure': { en: 'the days are not exact', es: 'los días no son exactos' },
  'harvest-interval.cropUnknown': { en: 'which crop it was is not recorded', es: 'no está anotado qué cultivo era' },
  'harvest-interval.unsure': {
    en: '{said}; {asked} are asked for, and {why}.',
    es: '{said}; se piden {asked}, y {why}.',
  },
  'harvest-interval.more': {
    en: '{n} more {n#application|applications} before it alike.',
    es: '{n} {n#aplicación más|aplicaciones más} antes, igual.',
  },
  'harvest-interval.none': {
    en: 'No tea with a waiting time went on this ground before.',
    es: 'Antes no se aplicó a este terreno ningún té con tiempo de espera.',
  },
  'harvest-interval.asLong': { en: 'as long as it is open ({why})', es: 'mientras quede abierto ({why})' },
  'harvest-interval.because': { en: 'because {why}', es: 'porque {why}' },
  'harvest-interval.from': {
    en: 'No harvest of this ground before {free:day}, {why}.',
    es: 'Ninguna cosecha de este terreno antes del {free:day}, {why}.',
  },
  'harvest-organic.substance': { en: 'a prohibited substance', es: 'una sustancia prohibida' },
  'harvest-organic.notOrganic': {
    en: 'This harvest is not sold as organic.',
    es: 'Esta cosecha no se vende como orgánica.',
  },
  'harvest-organic.fieldUnknown': {
    en: 'The field of this harvest is not registered.',
    es: 'El campo de esta cosecha no está registrado.',
  },
  'harvest-organic.transition': { en: 'in transition', es: 'en transición' },
  'harvest-organic.conventional': { en: 'conventional', es: 'convencional' },
  'harvest-organic.status': {
    en: '{code} stands as {status} ground, and the harvest of {day:day} is sold as organic.',
    es: '{code} está registrado como terreno {status}, y la cosecha del {day:day} se vende como orgánica.',
  },
  'harvest-organic.drift': {
    en: '{said} Whether drift ends the organic status is for the certifier to say.',
    es: '{said} Si la deriva acaba con el estado orgánico lo dice la certificadora.',
  },
  'harvest-organic.none': {
    en: 'No prohibited substance is recorded on this ground in the {months} months before {day:day}.',
    es: 'No hay ninguna sustancia prohibida anotada en este terreno en los {months} meses antes del {day:day}.',
  },
  'harvest-organic.exposed': {
    en: '{said:begin} on {on:day}; ground is free of it from {free:day}, and the harvest was on {day:day}.',
    es: '{said:begin} el {on:day}; el terreno queda libre de ello desde el {free:day}, y la cosecha fue el {day:day}.',
  },
  'area-possible.lotUnknown': {
    en: 'The lot of compost that was wetted is not recorded.',
    es: 'El lote de compost que se mojó no está anotado.',
  },
  'area-possible.wetted': {
    en: 'Lot {code} was wetted; it has no area.',
    es: 'Se mojó el lote {code}; no tiene superficie.',
  },
  'area-possible.fieldUnknown': {
    en: 'A field that was treated is not registered.',
    es: 'Un campo que se trató no está registrado.',
  },
  'area-possible.noArea': { en: 'No area is recorded for {code}.', es: 'No hay superficie anotada para {code}.' },
  'area-possible.fieldArea': {
    en: 'The area of {code} is not recorded.',
    es: 'La superficie de {code} no está anotada.',
  },
  'area-possible.said': {
    en: '{reading} were treated on {code}, which has {whole}.',
    es: 'Se trataron {reading} en {code}, que tiene {whole}.',
  },
  'area-possible.nowhere': {
    en: 'Where this application went is not recorded.',
    es: 'No está anotado adónde fue esta aplicación.',
  },
  'field-located.around': { en: '{code} around {inner}', es: '{code} alrededor de {inner}' },
  'field-located.drawn': { en: 'The boundary of {around} is on record.', es: 'El contorno de {around} está anotado.' },
  'field-located.noHarvest': { en: 'Nothing was harvested from it.', es: 'No se cosechó nada de él.' },
  'field-located.notDrawn': {
    en: 'Where {code} lies is not on record: draw its boundary.',
    es: 'No está anotado dónde queda {code}: dibuje su contorno.',
  },
  'exposed.drift': { en: '{substance} drifted onto {code}', es: '{substance} llegó por deriva a {code}' },
  'exposed.applied': { en: '{substance} was applied to {code}', es: '{substance} se aplicó en {code}' },
  'harvest-interval.own': {
    en: '{said}; your rule book asks for {asked}.',
    es: '{said}; su libro de reglas pide {asked}.',
  },
} as const satisfies Messages;
