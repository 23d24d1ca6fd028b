import type { Messages } from '../message.ts';

/** The brew: recipe, time, air, smell. */
export const brewMessages = {
  'recipe-followed.noRecipe': { en: 'No recipe was named.', es: 'No se nombró ninguna receta.' },
  'recipe-followed.noIngredient': { en: 'No ingredient is in yet.', es: 'Todavía no hay ningún ingrediente dentro.' },
  'recipe-followed.recipeUnknown': {
    en: 'The recipe that was named is not recorded.',
    es: 'La receta que se nombró no está anotada.',
  },
  'recipe-followed.volumeUnknown': {
    en: 'How much was filled in is not recorded as a volume.',
    es: 'No está anotado como volumen cuánto se llenó.',
  },
  'recipe-followed.amountUnknown': {
    en: 'The amount of {name} cannot be turned into {unit}: record the worth of the measure.',
    es: 'La cantidad de {name} no se puede convertir a {unit}: anote cuánto vale la medida.',
  },
  'recipe-followed.said': {
    en: '{sum:figure} {unit} of {name}; the recipe asks for {asked:figure} {unit}, {least:figure} to {most:figure} count as such',
    es: '{sum:figure} {unit} de {name}; la receta pide {asked:figure} {unit}, de {least:figure} a {most:figure} cuentan como tal',
  },
  'recipe-followed.missing': {
    en: 'The recipe also asks for {missing:list}; what goes in after {settled:time} is a top-up.',
    es: 'La receta pide también {missing:list}; lo que entra después de las {settled:time} es un relleno.',
  },
  'recipe-followed.extra': {
    en: '{what} went in and is not in the recipe.',
    es: '{what} entró y no está en la receta.',
  },
  'recipe-followed.more': {
    en: '{n} more {n#ingredient differs|ingredients differ} as well.',
    es: '{n} {n#ingrediente más difiere|ingredientes más difieren} también.',
  },
  'recipe-followed.empty': { en: 'The recipe names no ingredient.', es: 'La receta no nombra ningún ingrediente.' },
  'recipe-followed.anIngredient': { en: 'an ingredient', es: 'un ingrediente' },
  'recipe-followed.something': { en: 'Something', es: 'Algo' },
  'brew-minimum.extract': { en: 'An extract is not brewed.', es: 'Un extracto no se prepara con tiempo.' },
  'brew-minimum.within': { en: 'Brewed {said} since {since:time}.', es: 'Se preparó {said} desde las {since:time}.' },
  'brew-minimum.pastAdvised': {
    en: 'Brewed {said} since {since:time}: within your limit of {limit:hours}, short of the {advised:hours} that you advise.',
    es: 'Se preparó {said} desde las {since:time}: dentro de su límite de {limit:hours}, menos de las {advised:hours} que usted aconseja.',
  },
  'brew-minimum.over': {
    en: 'Brewed {said} since {since:time}; the least is {limit:hours}.',
    es: 'Se preparó {said} desde las {since:time}; lo menos es {limit:hours}.',
  },
  'brew-minimum.unsure': {
    en: 'Brewed {brewHours}, as the times are not exact; the least is {limit:hours}, advised {advised:hours}.',
    es: 'Se preparó {brewHours}, pues las horas no son exactas; lo menos es {limit:hours}, lo aconsejado {advised:hours}.',
  },
  'brew-minimum.airOff': {
    en: 'The air went off after {brewed:hours} of brewing, before the {limit:hours} of your limit.',
    es: 'El aire se apagó después de {brewed:hours} de preparación, antes de las {limit:hours} de su límite.',
  },
  'brew-minimum.reached': {
    en: '{advised:hours} of brewing are reached at {at:time}; your least, {limit:hours}, at {least:time}.',
    es: 'Las {advised:hours} de preparación se alcanzan a las {at:time}; lo menos suyo, {limit:hours}, a las {least:time}.',
  },
  'brew-maximum.withFood': { en: 'with microbial food', es: 'con alimento microbiano' },
  'brew-maximum.withoutFood': { en: 'without microbial food', es: 'sin alimento microbiano' },
  'brew-maximum.foodUnknown': {
    en: "Brewed {brewHours}; whether microbial food was in is not known, as a lot's material is not recorded.",
    es: 'Se preparó {brewHours}; no se sabe si había alimento microbiano, pues el material de un lote no está anotado.',
  },
  'brew-maximum.said': {
    en: '{brewHours} since {brewFrom:time} {words}',
    es: '{brewHours} desde las {brewFrom:time} {words}',
  },
  'brew-maximum.within': { en: 'Brewed {said}.', es: 'Se preparó {said}.' },
  'brew-maximum.pastAdvised': {
    en: 'Brewed {said}: within your limit of {limit:hours}, past the {advised:hours} that you advise.',
    es: 'Se preparó {said}: dentro de su límite de {limit:hours}, pasadas las {advised:hours} que usted aconseja.',
  },
  'brew-maximum.over': {
    en: 'Brewed {said}; the limit is {limit:hours}.',
    es: 'Se preparó {said}; el límite es {limit:hours}.',
  },
  'brew-maximum.unsure': {
    en: 'Brewed {brewHours} {words}, as the times are not exact; the limit is {limit:hours}, advised {advised:hours}.',
    es: 'Se preparó {brewHours} {words}, pues las horas no son exactas; el límite es {limit:hours}, lo aconsejado {advised:hours}.',
  },
  'brew-maximum.useUp': {
    en: 'Use the tea up by {advised:time}, at the latest by {limit:time}.',
    es: 'Use el té antes de las {advised:time}, a más tardar a las {limit:time}.',
  },
  'brew-maximum.reached': {
    en: 'The tea reached the longest brew time of your limit at {limit:time} and no draw is recorded: what is drawn later is outside it.',
    es: 'El té llegó al tiempo de preparación más largo de su límite a las {limit:time} y no hay carga anotada: lo que se saque después queda fuera.',
  },
  'air-continuous.onlyAerated': {
    en: 'Only aerated tea needs air throughout.',
    es: 'Solo el té aireado necesita aire todo el tiempo.',
  },
  'air-continuous.noAir': {
    en: 'No air is recorded: record when it went on.',
    es: 'No hay aire anotado: anote cuándo se puso.',
  },
  'air-continuous.off': {
    en: 'The air was off for {minutes} from {stopped:time}',
    es: 'El aire estuvo apagado {minutes} desde las {stopped:time}',
  },
  'air-continuous.unchecked': {
    en: 'Nobody checked oxygen or odour before the next draw.',
    es: 'Nadie revisó el oxígeno o el olor antes de la siguiente carga.',
  },
  'air-continuous.pastAdvised': {
    en: '{said}: within your limit of {limit:minutes}, past the {advised:minutes} that you advise.{after:more}',
    es: '{said}: dentro de su límite de {limit:minutes}, pasados los {advised:minutes} que usted aconseja.{after:more}',
  },
  'air-continuous.over': {
    en: '{said}; the limit is {limit:minutes}.{after:more}',
    es: '{said}; el límite es {limit:minutes}.{after:more}',
  },
  'air-continuous.unsure': {
    en: 'The air was off for {minutes}, as the times are not exact; the limit is {limit:minutes}, advised {advised:minutes}.{after:more}',
    es: 'El aire estuvo apagado {minutes}, pues las horas no son exactas; el límite es {limit:minutes}, lo aconsejado {advised:minutes}.{after:more}',
  },
  'air-continuous.stopped': {
    en: 'The air stopped at {stopped:time}: get it back on by {end:time}, or count the tea as held.',
    es: 'El aire se paró a las {stopped:time}: vuelva a ponerlo antes de las {end:time}, o cuente el té como en espera.',
  },
  'air-continuous.none': {
    en: 'No interruption of the air is recorded while food was in.',
    es: 'No hay ninguna interrupción del aire anotada mientras había alimento dentro.',
  },
  'odour-sound.none': { en: 'No smell is recorded.', es: 'No hay olor anotado.' },
  'odour-sound.sound': { en: 'No foul smell is recorded.', es: 'No hay mal olor anotado.' },
  'odour-sound.foul': { en: 'The tea smelled {odour} at {at:time}', es: 'El té olía {odour} a las {at:time}' },
  'odour-sound.used': { en: '{said} and was used afterwards.', es: '{said} y se usó después.' },
  'odour-sound.soundAgain': {
    en: '{said}, {odour} again at {again:time}, and was used afterwards.',
    es: '{said}, otra vez {odour} a las {again:time}, y se usó después.',
  },
  'odour-sound.dumped': { en: '{said} and was dumped.', es: '{said} y se tiró.' },
  'odour-sound.dump': { en: '{said}: dump it and record where it went.', es: '{said}: tírelo y anote adónde fue.' },
  'odour-sound.sour': { en: 'sour', es: 'agrio' },
  'odour-sound.rotten': { en: 'rotten', es: 'podrido' },
  'odour-sound.earthy': { en: 'earthy', es: 'a tierra' },
  'odour-sound.sweet': { en: 'sweet', es: 'dulce' },
  'odour-sound.yeasty': { en: 'yeasty', es: 'a levadura' },
  'odour-sound.ammonia': { en: 'ammonia', es: 'a amoníaco' },
} as const satisfies Messages;
