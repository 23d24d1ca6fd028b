import type { Sentence } from '@furrowmark/reports/in-spanish';

/** Why a plan cannot be made, what does not fit in it, and what it took for granted. */
export const planSentences: readonly Sentence[] = [
  ['The spray window must end after it begins.', 'La ventana para aplicar tiene que terminar después de empezar.'],
  [
    'An area or a rate has a unit that does not convert.',
    'Una superficie o una dosis tiene una unidad que no se puede convertir.',
  ],
  [
    'The targets take no tea: give an area and a rate of more than 0.',
    'Los campos no llevan té; dé una superficie y una dosis de más de 0.',
  ],
  ['This cannot be planned.', 'Esto no se puede planear.'],
  ['There is no recipe with this id.', 'No hay receta con este identificador.'],
  ['There is no field with this id.', 'No hay campo con este identificador.'],
  [
    '{field} has no area: record it, or give an area instead.',
    '{field} no tiene superficie; anótela, o dé una superficie en su lugar.',
  ],
  [
    '{rest} of {need} cannot be brewed and sprayed by {to}.',
    'De {need} hay {rest} que no se alcanzan a preparar y aplicar hasta {to}.',
  ],
  ['The sprayer puts out at most {most} in this window.', 'El equipo aplica a lo más {most} en esta ventana.'],
  ['It would fit {remedies:or}.', 'Alcanzaría {remedies:or}.'],
  ['if spraying could go on until {time}', 'si se pudiera aplicar hasta {time}'],
  ['with a further vessel of {volume} working volume', 'con otro tanque de {volume} de volumen de trabajo'],
  ['at {percent} % of the rate', 'al {percent} % de la dosis'],
  ['Night work at {vessel}: {steps:list}.', 'Trabajo de noche en {vessel}: {steps:list}.'],
  ['fill {time}', 'llenar {time}'],
  ['ingredients {time}', 'ingredientes {time}'],
  ['air off {time}', 'apagar el aire {time}'],
  [
    'The clocks change while {vessel} brews: the plan counts true hours, so go by the times with their offset from UTC.',
    'Los relojes cambian mientras {vessel} se prepara; el plan cuenta horas verdaderas, así que guíese por las horas con su diferencia de UTC.',
  ],
  [
    'What the water is disinfected with is not known: {minutes} min of air before the ingredients are planned as for chlorine.',
    'No se sabe con qué se desinfecta el agua; se planean {minutes} min de aire antes de los ingredientes, como para el cloro.',
  ],
  ['Air alone does not answer chloramine.', 'El aire solo no quita la cloramina.'],
  [
    'Air alone does not answer chloramine: treat the water, then measure total chlorine before the ingredients go in.',
    'El aire solo no quita la cloramina; trate el agua y mida el cloro total antes de poner los ingredientes.',
  ],
  ['The certifier decides about neutralizers.', 'Sobre los neutralizantes decide el certificador.'],
  [
    'A brew of {hours} h is shorter than your limit of {limit} h.',
    'Una preparación de {hours} h es más corta que su límite de {limit} h.',
  ],
  [
    'A brew of {hours} h is longer than your limit of {limit} h.',
    'Una preparación de {hours} h es más larga que su límite de {limit} h.',
  ],
  [
    '{code} is still in a tank that this plan uses: empty and clean it first.',
    '{code} sigue en un tanque que este plan usa; vacíelo y lávelo primero.',
  ],
  ['No recipe was named: ingredients are not planned.', 'No se escogió receta; no se planean ingredientes.'],
  [
    'How much the sprayer puts out in an hour is not known: the plan takes it that each batch is sprayed within its hold time.',
    'No se sabe cuánto aplica el equipo por hora; el plan da por hecho que cada lote se aplica dentro de su tiempo sin aire.',
  ],
  [
    'The sprayer’s tank is not known: loads are not counted.',
    'No se conoce el tanque del equipo; no se cuentan las cargas.',
  ],
  [
    '{vessel} has no working volume registered, so it is left out.',
    '{vessel} no tiene volumen de trabajo registrado y por eso queda fuera.',
  ],
  [
    '{vessel} has its working volume in a household measure that is not registered, so it is left out.',
    '{vessel} tiene su volumen de trabajo en una medida de la finca que no está registrada y por eso queda fuera.',
  ],
  [
    'Spraying takes longer than the {advised} h advised after air off, within your limit of {limit} h: keep the air on until the tank is used up.',
    'Aplicar toma más que las {advised} h aconsejadas sin aire, dentro de su límite de {limit} h; deje el aire encendido hasta vaciar el tanque.',
  ],
  [
    'Recipe {code}: {why:told}, so no ingredients are planned.',
    'Receta {code}: {why:told}; por eso no se planean ingredientes.',
  ],
  [
    'the volume that it is for is nothing, or a household measure that is not registered',
    'el volumen para el que es no dice nada, o es una medida de la finca sin registrar',
  ],
  [
    '{name}: the household measure is not registered, so no lot is picked.',
    '{name}: la medida de la finca no está registrada; por eso no se escoge lote.',
  ],
  [
    '{name} for {vessel} on {day}: {short} of {wanted} is not in stock.',
    '{name} para {vessel} el {day}: de {wanted} faltan {short} en bodega.',
  ],
  ['Lot {code} {why:told}.', 'El lote {code} {why:told}.'],
  ['was recalled', 'fue retirado'],
  ['is on hold', 'está retenido'],
  ['has no approval on that day', 'no tiene aprobación ese día'],
  ['expired on {day}', 'venció el {day}'],
  ['is kept in {unit}, which {other} does not convert into', 'se lleva en {unit}, y {other} no se convierte a eso'],
  [
    'must be a time with its offset, such as {example}',
    'tiene que ser una hora con su diferencia de UTC, como {example}',
  ],
  ['must name at least one vessel', 'tiene que nombrar al menos un tanque'],
];
