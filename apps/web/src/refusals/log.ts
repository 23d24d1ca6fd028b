import type { Sentence } from '@furrowmark/reports/in-spanish';

/** What is wrong with a log, an archive of one or a checkpoint: each a part of a sentence. */
export const logSentences: readonly Sentence[] = [
  // Entries.
  [
    'entry {n} is not canonical JSON: its bytes were changed or damaged',
    'la entrada {n} no es JSON canónico; sus bytes se cambiaron o se dañaron',
  ],
  [
    'entry {n} lacks what the log puts in every entry: {why:told}',
    'a la entrada {n} le falta lo que el libro pone en cada una: {why:told}',
  ],
  ['it does not name its log (operationId)', 'no nombra su libro (operationId)'],
  ['it has no number of its own (seq)', 'no lleva su número (seq)'],
  ['it has no type', 'no lleva tipo'],
  ['it does not say when it was recorded (recordedAt)', 'no dice cuándo se anotó (recordedAt)'],
  ['it does not say when it happened (occurredAt)', 'no dice cuándo pasó (occurredAt)'],
  ['entry {n} belongs to another log, {log}', 'la entrada {n} es de otro libro, {log}'],
  [
    'the entry at place {n} has number {other} written in it',
    'la entrada del lugar {n} lleva escrito el número {other}',
  ],
  [
    'entry {n} says it was recorded {time}, which is before an entry ahead of it',
    'la entrada {n} dice que se anotó {time}, antes que una entrada anterior',
  ],
  [
    'entry {n} says it was recorded {time}, which is yet to come',
    'la entrada {n} dice que se anotó {time}, que todavía no llega',
  ],
  [
    'entry {n} says it was recorded {time}, but {label:told}, seen {seen}, has it already: a clock was ahead',
    'la entrada {n} dice que se anotó {time}, pero {label:told}, visto {seen}, ya la tiene; un reloj estaba adelantado',
  ],
  [
    'entry {n} says it was recorded {time}, but {label:told}, seen {seen}, does not have it: a clock was set back',
    'la entrada {n} dice que se anotó {time}, pero {label:told}, visto {seen}, no la tiene; un reloj se atrasó',
  ],
  [
    'entry {n} was altered: its bytes are not those that {label:told} covers',
    'la entrada {n} se alteró; sus bytes no son los que cubre {label:told}',
  ],
  ['entry {n} is missing: {label:told} covers it', 'falta la entrada {n}; {label:told} la cubre'],
  [
    'the entry at place {n} was put in: {label:told} does not cover it',
    'la entrada del lugar {n} se metió después; {label:told} no la cubre',
  ],
  ['entry {n} is not in its place', 'la entrada {n} no está en su lugar'],
  ['entry {n} is not covered by {label:told}', 'la entrada {n} no la cubre {label:told}'],
  ['entry {n} is not the entry that {label:told} shows', 'la entrada {n} no es la que muestra {label:told}'],
  [
    'the entries do not have the root of {label:told} (size {size}): something among entries {from} to {to} is not as it was',
    'las entradas no tienen la raíz de {label:told} (tamaño {size}); algo entre las entradas {from} y {to} no está como estaba',
  ],
  [
    '{label:told} covers {size} entries, but only {n} are here: the log was cut short, put back to an older state, or taken out before that checkpoint was made',
    '{label:told} cubre {size} entradas, pero aquí hay solo {n}; el libro se cortó, se devolvió a un estado anterior o se sacó antes de ese punto de control',
  ],
  [
    "the log's checkpoint covers {size} entries, but {n} are here",
    'el punto de control del libro cubre {size} entradas, pero aquí hay {n}',
  ],
  [
    '{one:told} and {other:told} are both signed by the log, for the same {n} entries, with different roots ({roots}): the log was shown in two versions. Keep both: together they prove it',
    '{one:told} y {other:told} están firmados por el libro, para las mismas {n} entradas, con raíces distintas ({roots}); el libro se mostró en dos versiones. Guarde los dos: juntos lo prueban',
  ],
  [
    'the log is {log}, but the keys that you brought are for {names}',
    'el libro es {log}, pero las claves que usted trajo son de {names}',
  ],
  [
    '{label:told} is a checkpoint of another log, {log}: this is not the log that it has seen',
    '{label:told} es un punto de control de otro libro, {log}; este no es el libro que vio',
  ],
  [
    'the leaf hashes beside the log are damaged: they are not a multiple of 32 bytes',
    'los resúmenes que van junto al libro están dañados; no son un múltiplo de 32 bytes',
  ],
  [
    'a part of a log can only be checked with leaf hashes that lead to the root of a checkpoint',
    'una parte de un libro se comprueba solo con resúmenes que llevan a la raíz de un punto de control',
  ],
  [
    'the leaf hashes stored beside the log are not those of its entries; the entries themselves agree',
    'los resúmenes que van junto al libro no son los de sus entradas; las entradas sí concuerdan',
  ],
  ['{label:told} does not count: {why:told}', '{label:told} no cuenta: {why:told}'],
  // What they are held against.
  ['checkpoint', 'el punto de control'],
  ['checkpoints/{name}', 'el punto de control {name}'],
  ["the archive's checkpoint", 'el punto de control del archivo'],
  ["the archive's checkpoints/{name}", 'el punto de control {name} del archivo'],
  // Checkpoints and their signatures.
  ['the checkpoint does not end in a line feed', 'el punto de control no termina en fin de línea'],
  ['the checkpoint does not have its three lines', 'el punto de control no tiene sus tres líneas'],
  ['the size of the checkpoint is not a decimal number', 'el tamaño del punto de control no es un número decimal'],
  ['the size of the checkpoint is beyond 2^53 - 1', 'el tamaño del punto de control pasa de 2^53 - 1'],
  [
    'the root of the checkpoint is not the base64 of 32 bytes',
    'la raíz del punto de control no son 32 bytes en base64',
  ],
  ['the note is not valid UTF-8', 'la nota no es UTF-8 válido'],
  ['the note holds control characters', 'la nota tiene caracteres de control'],
  ['the note has no blank line before its signatures', 'a la nota le falta la línea en blanco antes de las firmas'],
  ['the note has no complete signature line', 'la nota no tiene una línea de firma completa'],
  ['the note has more than {n} signatures', 'la nota tiene más de {n} firmas'],
  ['a signature line of the note is malformed', 'una línea de firma de la nota está mal escrita'],
  ['the signature of {name} does not fit the text', 'la firma de {name} no corresponde al texto'],
  ['no signature is by a trusted key', 'ninguna firma es de una clave de confianza'],
  // Keys.
  [
    'a key name must not be empty and must hold neither white space nor a plus sign',
    'el nombre de una clave no puede quedar vacío ni llevar espacios o el signo más',
  ],
  ['the public key is not a usable Ed25519 key', 'la clave pública no es una clave Ed25519 que sirva'],
  ['not a verifier key line', 'no es una línea de clave'],
  ['the verifier key is not proper base64', 'la clave no es base64 correcto'],
  ['the verifier key is of a kind other than Ed25519', 'la clave es de otra clase que Ed25519'],
  [
    'the key ID does not belong to this name and key',
    'el identificador de la clave no corresponde a este nombre y clave',
  ],
  // The file.
  ['The archive cannot be read: {why:told}.', 'El archivo no se puede leer: {why:told}.'],
  ['the archive ends before its closing blocks', 'el archivo termina antes de sus bloques finales'],
  ['a header of the archive is not text', 'un encabezado del archivo no es texto'],
  ['a number in a header of the archive is damaged', 'un número de un encabezado del archivo está dañado'],
  ['a header of the archive is damaged', 'un encabezado del archivo está dañado'],
  ['{name} is neither a file nor a directory', '{name} no es un archivo ni una carpeta'],
  ['{name} leads out of the archive', '{name} lleva fuera del archivo'],
  ['{name} is a directory with content', '{name} es una carpeta con contenido'],
  [
    '{name} is no name that every program reads alike',
    '{name} no es un nombre que todos los programas lean del mismo modo',
  ],
  ['something follows the closing blocks of the archive', 'algo sigue a los bloques finales del archivo'],
  ['the archive ends within a block', 'el archivo termina en medio de un bloque'],
  ['the archive ends within a file', 'el archivo termina en medio de un fichero'],
  ['{name} is in the archive twice', '{name} está dos veces en el archivo'],
  [
    'manifest.json does not say that this is a whole-operation archive, version 1.',
    'manifest.json no dice que esto sea un archivo entero de una finca, versión 1.',
  ],
  [
    'The archive holds a part of a log only; a whole one is needed.',
    'El archivo trae solo una parte de un libro; hace falta uno entero.',
  ],
  ['The archive has no checkpoint.', 'El archivo no trae punto de control.'],
  ['Entry {n} is no record that is known here: {why}', 'La entrada {n} no es un registro que se conozca aquí: {why}'],
  [
    'The entries are not of the log that manifest.json names.',
    'Las entradas no son del libro que nombra manifest.json.',
  ],
  ['The log has no entries.', 'El libro no tiene entradas.'],
  ['Line {n} of openings.ndjson is not what was sealed.', 'La línea {n} de openings.ndjson no es lo que se selló.'],
  [
    'The archive is of the operation {id}, not of the one in the address.',
    'El archivo es de la finca {id}, no de la que está en la dirección.',
  ],
  ['The operation {id} is here already.', 'La finca {id} ya está aquí.'],
  ['An archive has at most 4 GiB.', 'Un archivo tiene 4 GiB a lo más.'],
  [
    'Nothing was imported: the archive is not a whole log that fits together.',
    'No se recibió nada; el archivo no es un libro entero que concuerde.',
  ],
  ['Send the archive as application/x-tar.', 'Envíe el archivo como application/x-tar.'],
];
