import type { Sentence } from '@furrowmark/reports/in-spanish';

/** Why a record is not taken: what follows the member's name, without its full stop; and what the log itself answers. */
export const recordSentences: readonly Sentence[] = [
  // What is missing, or of another kind.
  ['is missing: write it', 'falta; escríbalo'],
  ['is missing: write one of {values}', 'falta; escriba uno de estos: {values}'],
  ['is missing: “between” needs the upper end', 'falta; “entre” pide el extremo de arriba'],
  ['is missing: name the registered household measure', 'falta; diga cuál medida registrada es'],
  [
    'is missing: name the field, or the lot of compost that was wetted',
    'falta; diga el campo, o el lote de compost que se mojó',
  ],
  [
    'is missing: name the batch, or the vessel where it is not filled yet',
    'falta; diga el lote de té, o el tanque si todavía no está lleno',
  ],
  [
    'is missing: write the free chlorine, the total chlorine, or both',
    'falta; escriba el cloro libre, el cloro total o los dos',
  ],
  ['must not be empty', 'no puede quedar vacío'],
  ['must be one of {values}: did you mean {meant}', 'tiene que ser uno de estos: {values}; ¿quiso decir {meant}?'],
  ['must be one of {values}', 'tiene que ser uno de estos: {values}'],
  ['must be {kind:told}, not {other:told}', 'tiene que ser {kind:told}, no {other:told}'],
  ['must be {kind:told}', 'tiene que ser {kind:told}'],
  ['a text', 'un texto'],
  ['a number', 'un número'],
  ['a whole number', 'un número entero'],
  ['true or false', 'sí o no'],
  ['a list', 'una lista'],
  ['an object with members', 'un grupo de datos'],
  ['{one:told} or {other:told}', '{one:told} o {other:told}'],
  ['must be an object with members', 'tiene que ser un grupo de datos'],
  ['must be a UUID in lower case', 'tiene que ser un UUID en minúsculas'],
  [
    'must be a SHA-256 as 64 lower-case hexadecimal digits',
    'tiene que ser un SHA-256 de 64 cifras hexadecimales en minúsculas',
  ],
  // Figures.
  ['must not be negative: write the amount without a sign', 'no puede ser negativo; escriba la cantidad sin signo'],
  ['must not be negative', 'no puede ser negativo'],
  ['must not be below {least}', 'no puede ser menos de {least}'],
  ['must not be above {most}', 'no puede ser más de {most}'],
  ['must be a finite number', 'tiene que ser un número finito'],
  [
    'is too large: numbers stay below 1,000,000,000,000',
    'es demasiado grande; los números quedan por debajo de 1.000.000.000.000',
  ],
  [
    'has more than {n} significant digits: round it to what was read',
    'tiene más de {n} cifras; redondéelo a lo que se leyó',
  ],
  [
    'lies below absolute zero: check the figure and its unit',
    'está por debajo del cero absoluto; revise la cifra y su unidad',
  ],
  [
    'is not above {value}: “value” is the lower end, “high” the upper',
    'no es más que {value}; “valor” es el extremo de abajo y “hasta” el de arriba',
  ],
  [
    'stands only beside the qualifier “between”: add the qualifier or leave this out',
    'va solo junto a “entre”; agréguelo o quite esto',
  ],
  [
    'stands only beside the unit {unit}: leave it out, or write that unit',
    'va solo con la unidad {unit}; quítelo o escoja esa unidad',
  ],
  ['{what:told}: use the UCUM code {code}', '{what:told}; use el código UCUM {code}'],
  ['{what:told}: use a UCUM code such as {codes}', '{what:told}; use un código UCUM como {codes}'],
  ['“{unit}” does not measure {what}', '“{unit}” no mide lo que se pide aquí ({what})'],
  ['“{unit}” is not a known UCUM code', '“{unit}” no es un código UCUM conocido'],
  ['must be above 0: write 29 for 29:1', 'tiene que ser más de 0; escriba 29 para 29:1'],
  ['must hold at least one temperature', 'tiene que llevar al menos una temperatura'],
  ['must name at least one thing that it measures', 'tiene que nombrar al menos una cosa que mide'],
  // Times.
  [
    'must be a date and time that exists, with its offset from UTC, such as {example}',
    'tiene que ser una fecha y hora que exista, con su diferencia de UTC, como {example}',
  ],
  [
    'must be a day that exists, such as {example}, or a year, such as {year}',
    'tiene que ser un día que exista, como {example}, o un año, como {year}',
  ],
  ['must be a day that exists, such as {example}', 'tiene que ser un día que exista, como {example}'],
  [
    'must be a time zone of the IANA list, such as {example}',
    'tiene que ser una zona horaria de la lista IANA, como {example}',
  ],
  [
    'lies more than 24 hours ahead ({time}): correct the date, or the clock of the device',
    'está más de 24 horas adelante ({time}); corrija la fecha, o el reloj del aparato',
  ],
  ['lies before 1970 ({time}): correct the year', 'es de antes de 1970 ({time}); corrija el año'],
  [
    'lies ahead ({day}), but was already done: correct the date',
    'está por venir ({day}), pero ya se hizo; corrija la fecha',
  ],
  [
    'lies before its beginning on {day}: exchange the two dates, or correct the wrong one',
    'es de antes de su comienzo, el {day}; cambie una fecha por la otra, o corrija la equivocada',
  ],
  [
    'lies before the start at {time}: correct the wrong one of the two',
    'es de antes del comienzo ({time}); corrija la hora equivocada',
  ],
  [
    'lies after the air was found off at {time}: correct the wrong one of the two',
    'es de después de encontrar el aire apagado ({time}); corrija la hora equivocada',
  ],
  // Texts.
  ['holds a NUL character: remove it', 'tiene un carácter nulo; quítelo'],
  [
    'holds half of a character (a lone surrogate): type the text again',
    'tiene medio carácter; escriba el texto otra vez',
  ],
  [
    'is longer than {n} characters: shorten it, or attach it as a document',
    'pasa de {n} caracteres; acórtelo, o adjúntelo como documento',
  ],
  ['is not a name that a member may have', 'no es un nombre permitido aquí'],
  ['lies deeper than {n} levels', 'tiene más de {n} niveles'],
  ['must be a media type such as {example}', 'tiene que ser un tipo de archivo como {example}'],
  ['must be a SHA-256 in base64', 'tiene que ser un SHA-256 en base64'],
  ['must be a language tag such as en or es', 'tiene que ser un idioma como en o es'],
  ['must be the id of a rule, such as {example}', 'tiene que ser el identificador de una regla, como {example}'],
  // Outlines.
  ['must be “Polygon”', 'tiene que ser “Polygon”'],
  ['must hold the boundary', 'tiene que llevar el contorno'],
  [
    'has a longitude outside -180 to 180: longitude comes first',
    'tiene una longitud fuera de -180 a 180; la longitud va primero',
  ],
  [
    'has a latitude outside -90 to 90: longitude comes first',
    'tiene una latitud fuera de -90 a 90; la longitud va primero',
  ],
  ['A boundary may have at most {n} positions.', 'Un contorno puede tener {n} puntos a lo más.'],
  [
    'A ring has at least four positions, the last the same as the first.',
    'Un contorno tiene al menos cuatro puntos, el último igual al primero.',
  ],
  [
    'The ring is not closed: its last position must repeat the first.',
    'El contorno no está cerrado; su último punto tiene que repetir el primero.',
  ],
  [
    'The boundary crosses itself here: put the positions in walking order.',
    'El contorno se cruza aquí; ponga los puntos en el orden en que se camina.',
  ],
  ['The positions enclose no ground.', 'Los puntos no encierran terreno.'],
  ['This hole does not lie inside the boundary.', 'Este hueco no queda dentro del contorno.'],
  ['must be longitude, then latitude', 'tiene que ser longitud y luego latitud'],
  [
    'has a longitude outside -180 to 180: write longitude first, then latitude',
    'tiene una longitud fuera de -180 a 180; escriba primero la longitud y luego la latitud',
  ],
  [
    'has a latitude outside -90 to 90: write longitude first, then latitude',
    'tiene una latitud fuera de -90 a 90; escriba primero la longitud y luego la latitud',
  ],
  ['must have at least four positions', 'tiene que tener al menos cuatro puntos'],
  ['must be closed: repeat its first position as its last', 'tiene que cerrarse; repita su primer punto al final'],
  ['must have an outline', 'tiene que tener un contorno'],
  [
    'has {n} positions, {most} are the most: simplify the outline',
    'tiene {n} puntos y lo más son {most}; simplifique el contorno',
  ],
  // Members that do not belong.
  ['is not a member of this record: {remedy:told}', 'no es parte de este registro; {remedy:told}'],
  ['did you mean “{meant}”', '¿quiso decir “{meant}”?'],
  ['known here are {known}', 'aquí se conocen {known}'],
  ['does not go with what stands beside it: leave it out', 'no va con lo que está al lado; quítelo'],
  [
    'and lotId stand side by side: write two targets, one for the field and one for the lot',
    'está junto a un lote; escriba dos destinos, uno para el campo y otro para el lote',
  ],
  [
    'changes nothing: name at least one member with its new value',
    'no cambia nada; escriba al menos un dato con su nuevo valor',
  ],
  // Kinds of records.
  ['names no record type ({type}): {remedy:told}', 'no es un tipo de registro ({type}); {remedy:told}'],
  ['see the list of record types', 'vea la lista de tipos de registro'],
  ['did you mean {meant}', '¿quiso decir {meant}?'],
  ['“{type}” is written by the server only: do not send it', '“{type}” lo escribe solo el servicio; no lo envíe'],
  [
    '{n} of {type} is newer than this server knows ({known}): update the server',
    'la versión {n} de {type} es más nueva que la que conoce este servicio ({known}); ponga al día el servicio',
  ],
  [
    '{n} of {type} is no longer accepted: update the app',
    'la versión {n} de {type} ya no se acepta; ponga al día la aplicación',
  ],
  [
    'names a record ({type}) that is never {verb:told}: {remedy:told}',
    'es de un registro ({type}) que nunca se {verb:told}; {remedy:told}',
  ],
  ['amended', 'corrige'],
  ['struck', 'tacha'],
  ['adopt the rule book again instead', 'adopte otra vez el libro de reglas'],
  ['review the batch again instead', 'revise otra vez el lote de té'],
  ['what was erased does not come back', 'lo borrado no vuelve'],
  ['it is the log’s own and only followed', 'es del propio registro y solo se sigue de otro'],
  ['is set by the server: leave it out', 'lo pone el servicio; quítelo'],
  ['is made by the server: send the name itself', 'lo hace el servicio; envíe el nombre mismo'],
  // What the log answers.
  [
    'Records by or about this person must be kept until {day}.',
    'Los registros de esta persona o sobre ella se guardan hasta el {day}.',
  ],
  ['Erase the person after that day.', 'Bórrela después de ese día.'],
  [
    'Another record with other content has this id already. Give this one an id of its own; to correct the other, send record.amended.',
    'Otro registro con otro contenido ya tiene este identificador. Dele a este el suyo; para corregir el otro, envíe record.amended.',
  ],
  ['This id belongs to another record.', 'Este identificador es de otro registro.'],
  [
    'Somebody else recorded this. Ask a reviewer or manager to correct it.',
    'Esto lo anotó otra persona. Pida a quien revisa o administra que lo corrija.',
  ],
  ['This record was written by somebody else.', 'Este registro lo escribió otra persona.'],
  ['Kept until {day}.', 'Se guarda hasta el {day}.'],
  [
    'Only reviewers and managers review and sign batches.',
    'Solo quienes revisan o administran revisan y firman los lotes de té.',
  ],
  ['Only managers adopt a rule book.', 'Solo quienes administran adoptan un libro de reglas.'],
  ['Only managers erase a person.', 'Solo quienes administran borran a una persona.'],
];
