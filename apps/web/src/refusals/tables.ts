import type { Sentence } from '@furrowmark/reports/in-spanish';

/** What a table, a logger’s file or a map lacks: of the file, then of a cell, which follows its column. */
export const tableSentences: readonly Sentence[] = [
  // The file.
  [
    'Which property names the field? The file has: {names}.',
    '¿Qué propiedad nombra el campo? El archivo tiene: {names}.',
  ],
  ['The file is not JSON: {why}.', 'El archivo no es JSON: {why}.'],
  [
    'The file is not in WGS 84 (longitude and latitude), which GeoJSON asks for: export it in that system.',
    'El archivo no está en WGS 84 (longitud y latitud), como lo pide GeoJSON; expórtelo en ese sistema.',
  ],
  [
    'The file has {n} features; at most {most} are read at once.',
    'El archivo tiene {n} elementos; a la vez se leen {most} a lo más.',
  ],
  [
    'The file is no GeoJSON of fields: it must be a FeatureCollection or a Feature.',
    'El archivo no es un GeoJSON de campos; tiene que ser una FeatureCollection o un Feature.',
  ],
  [
    'There is no “{name}” to fill: a column may serve {names}.',
    'No hay “{name}” que llenar; una columna puede servir para {names}.',
  ],
  [
    'The file has no column “{column}”. It has: {columns}.',
    'El archivo no tiene la columna “{column}”. Tiene: {columns}.',
  ],
  [
    'No column was found for “{title}” ({name}): name one.',
    'No se encontró columna para “{title}” ({name}); escoja una.',
  ],
  ['The file cannot be read as a table: {why}.', 'El archivo no se puede leer como tabla: {why}.'],
  [
    'The file is empty: its first line names the columns, each further line is a row.',
    'El archivo está vacío; su primera línea nombra las columnas y cada una de las otras es una fila.',
  ],
  [
    'The file has {n} columns; at most {most} are read: is it split by another mark?',
    'El archivo tiene {n} columnas y se leen {most} a lo más; ¿las separa otro signo?',
  ],
  [
    'The file has {n} rows; at most {most} are read at once: split it.',
    'El archivo tiene {n} filas y a la vez se leen {most} a lo más; divídalo.',
  ],
  ['Name the batch that the readings are of.', 'Diga de qué lote de té son las lecturas.'],
  [
    'The batch is not known: open it first, or name another.',
    'El lote de té no se conoce; ábralo primero o diga otro.',
  ],
  [
    'In what unit is “{column}” ({title})? The file does not say.',
    '¿En qué unidad está “{column}” ({title})? El archivo no lo dice.',
  ],
  [
    '“{column}” is in percent of saturation: let the logger write mg/L, which is what is recorded.',
    '“{column}” está en porcentaje de saturación; haga que el aparato escriba mg/L, que es lo que se anota.',
  ],
  [
    '“{unit}” is no unit of {title}: say which one “{column}” is in.',
    '“{unit}” no es unidad de {title}; diga en cuál está “{column}”.',
  ],
  // Notes about readings.
  ['1 reading is outside {from} – {to}: left out.', '1 lectura está fuera de {from} – {to}; se deja fuera.'],
  ['{n} readings are outside {from} – {to}: left out.', '{n} lecturas están fuera de {from} – {to}; se dejan fuera.'],
  ['1 reading is there a second time: taken once.', '1 lectura está dos veces; se toma una vez.'],
  ['{n} readings are there a second time: taken once.', '{n} lecturas están dos veces; se toman una vez.'],
  [
    'The time goes back {often:told}: the file is not in order, or the logger’s clock was set.',
    'La hora retrocede {often:told}; el archivo no está en orden, o se puso el reloj del aparato.',
  ],
  ['once', 'una vez'],
  ['{n} times', '{n} veces'],
  [
    'No reading from {from} to {to} ({length}); usually there is one every {usual}.',
    'Ninguna lectura de {from} a {to} ({length}); por lo común hay una cada {usual}.',
  ],
  ['{n} further gaps.', '{n} huecos más.'],
  // A cell.
  ['says something else for the same time as line {line}', 'dice otra cosa para la misma hora que la línea {line}'],
  ['repeats line {line}: leave one of them out', 'repite la línea {line}; quite una de las dos'],
  ['repeats feature {n}: leave one of them out', 'repite el elemento {n}; quite uno de los dos'],
  ['is empty', 'está vacío'],
  ['is no feature', 'no es un elemento de mapa'],
  ['is empty: it must name the field', 'está vacío; tiene que nombrar el campo'],
  ['is no polygon: draw the field’s outline as one', 'no es un polígono; dibuje así el contorno del campo'],
  [
    'has {n} parts: a field has one outline; register its parts as beds or blocks',
    'tiene {n} partes; un campo tiene un contorno: registre sus partes como camas o bloques',
  ],
  [
    '“{name}” is no registered field: register it first, or say the status of the land to register it',
    '“{name}” no es un campo registrado; regístrelo primero, o diga la situación de la tierra para registrarlo',
  ],
  [
    '“{name}” is no registered field: register it first, or bring fields in before plantings',
    '“{name}” no es un campo registrado; regístrelo primero, o traiga los campos antes que las siembras',
  ],
  ['is the field itself', 'es el campo mismo'],
  [
    'a field {code} is registered already and says something else: change it there, or give this one another code',
    'ya hay un campo {code} registrado que dice otra cosa; cámbielo allí, o dele a este otro código',
  ],
  [
    '“{name}” is the name of {n} materials: write the code',
    '“{name}” es el nombre de {n} materiales; escriba el código',
  ],
  [
    '“{name}” is no registered material: register it first, or bring materials in before lots',
    '“{name}” no es un material registrado; regístrelo primero, o traiga los materiales antes que los lotes',
  ],
  [
    'a lot {code} is recorded already: give this one a code of its own, or leave the row out',
    'ya hay un lote {code} anotado; dele a este su propio código, o quite la fila',
  ],
  [
    'a material {code} is registered already and says something else: change it there, or give this one another code',
    'ya hay un material {code} registrado que dice otra cosa; cámbielo allí, o dele a este otro código',
  ],
  ['is empty: say who approved it', 'está vacío; diga quién lo aprobó'],
  ['is empty: say from when the approval holds', 'está vacío; diga desde cuándo vale la aprobación'],
  [
    'holds an e-mail address: those never enter a record',
    'tiene un correo electrónico; esos nunca entran en un registro',
  ],
  ['is too long for a number', 'es demasiado largo para un número'],
  ['is too long for a time', 'es demasiado largo para una hora'],
  ['is too long for an amount', 'es demasiado largo para una cantidad'],
  [
    '“{cell}” is no number (decimals are taken to follow “{mark}”; say so if they follow “{other}”)',
    '“{cell}” no es un número (se entiende que los decimales van tras “{mark}”; dígalo si van tras “{other}”)',
  ],
  ['“{cell}” is no number', '“{cell}” no es un número'],
  ['“{cell}” is no date: write it as 2026-06-03', '“{cell}” no es una fecha; escríbala como 2026-06-03'],
  [
    '“{cell}” has no year of four digits: write it as 2026-06-03',
    '“{cell}” no tiene año de cuatro cifras; escríbala como 2026-06-03',
  ],
  [
    '“{cell}” may be two days: say whether the month or the day comes first',
    '“{cell}” puede ser dos días; diga si va primero el mes o el día',
  ],
  ['“{cell}” is no date with the {part:told} first', '“{cell}” no es una fecha con el {part:told} primero'],
  ['month', 'mes'],
  ['day', 'día'],
  ['“{cell}” is a day that does not exist', '“{cell}” es un día que no existe'],
  ['“{cell}” is no time of day: write it as 18:05', '“{cell}” no es una hora; escríbala como 18:05'],
  ['“{cell}” is a time that no clock shows', '“{cell}” es una hora que ningún reloj muestra'],
  ['“{cell}” is none of: {choices}', '“{cell}” no es ninguno de estos: {choices}'],
  ['is no time', 'no es una hora'],
  [
    'is an hour that the clocks skipped: if the logger keeps winter time, say its offset',
    'es una hora que los relojes saltaron; si el aparato guarda la hora de invierno, diga su diferencia de UTC',
  ],
  [
    'has no unit: write it behind the figure, in a column of its own, or say it for the file',
    'no tiene unidad; escríbala tras la cifra o en su propia columna, o dígala para todo el archivo',
  ],
  ['“{unit}” is no unit of {what}', '“{unit}” no es una unidad de lo que se pide aquí ({what})'],
  [
    'must be a date and time with its offset, such as {example}',
    'tiene que ser una fecha y hora con su diferencia de UTC, como {example}',
  ],
  ['must be an offset such as {example}', 'tiene que ser una diferencia de UTC como {example}'],
];
