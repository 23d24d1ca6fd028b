import type { Sentence } from '@furrowmark/reports/in-spanish';

/** What the service answers about files, reports, alerts and itself. */
export const serviceSentences: readonly Sentence[] = [
  // Itself.
  ['The service answered {status}.', 'El servicio contestó {status}.'],
  ['The service is busy just now. Send the same again.', 'El servicio está ocupado ahora. Envíe lo mismo otra vez.'],
  [
    'The database does not answer just now. Send the same again.',
    'La base de datos no contesta ahora. Envíe lo mismo otra vez.',
  ],
  [
    'There is no room left to write it down just now. Keep it, and send the same again.',
    'Ahora no queda lugar para anotarlo. Consérvelo y envíe lo mismo otra vez.',
  ],
  [
    'The database takes too long just now. Send the same again.',
    'La base de datos tarda demasiado ahora. Envíe lo mismo otra vez.',
  ],
  [
    'Very many records are arriving just now. Send the same again.',
    'Están llegando muchísimos registros. Envíe lo mismo otra vez.',
  ],
  [
    'The request has {n} records; at most {most} are taken at once.',
    'Se enviaron {n} registros; a la vez se aceptan {most} a lo más.',
  ],
  ['This address does not take that method.', 'Esta dirección no acepta ese método.'],
  ['The request is larger than {n} MiB.', 'Lo enviado pasa de {n} MiB.'],
  ['The request cannot be understood.', 'No se entiende lo enviado.'],
  ['Something went wrong in the service. It has been noted.', 'Algo falló en el servicio. Quedó apuntado.'],
  ['The body is not as this address takes it.', 'Lo enviado no es como se pide aquí.'],
  [
    'must be text without a NUL character and without half a character',
    'tiene que ser texto sin caracteres nulos ni medios caracteres',
  ],
  ['Not valid: the query.', 'No es válido lo que se pide.'],
  ['Not valid: {names}.', 'No es válido: {names}.'],
  ['Too big: expected string to have <={n} characters', 'es demasiado largo; puede llevar {n} letras a lo más'],
  ['Too small: expected string to have >={n} characters', 'es demasiado corto; tiene que llevar al menos {n} letras'],
  ['Too big: expected number to be <={n}', 'no puede ser más de {n}'],
  ['Too small: expected number to be >={n}', 'no puede ser menos de {n}'],
  ['Invalid email address', 'no es una dirección de correo'],
  ['Invalid input: expected int, received number', 'tiene que ser un número entero'],
  ['Invalid input: expected number, received NaN', 'tiene que ser un número'],
  ['must be a UUID', 'tiene que ser un UUID'],
  ['must be a whole number, not negative', 'tiene que ser un número entero, no negativo'],
  ['must be a whole number from {from} to {to}', 'tiene que ser un número entero de {from} a {to}'],
  [
    'must be a day, such as {day}, or an instant with its offset',
    'tiene que ser un día, como {day}, o una hora con su diferencia de UTC',
  ],
  ['must be the "next" of the page before', 'tiene que ser el «next» de la página anterior'],
  ['must be record types, separated by commas', 'tienen que ser tipos de registro separados por comas'],
  ['must be a time of day such as {time}', 'tiene que ser una hora del día como {time}'],
  ['must not lie after `to`', 'no puede ser después de «to»'],
  ['lies beyond the log as it is now', 'queda más allá del libro como está ahora'],
  // The log.
  [
    'This log came in as an archive. A manager takes it over first.',
    'Este libro llegó como archivo. Antes tiene que tomarlo a cargo quien administra.',
  ],
  ['This log is only read here: take it over first.', 'Este libro aquí solo se lee; tómelo a cargo primero.'],
  ['This log is carried on here already.', 'Este libro ya se lleva aquí.'],
  ['must be a verifier key line: {why:told}', 'tiene que ser una línea de clave: {why:told}'],
  [
    'The log is signed with the key {key}, and that key is not in the data folder. Put its backup back.',
    'El libro se firma con la clave {key}, y esa clave no está en la carpeta de datos. Devuelva su copia.',
  ],
  [
    'The record has {n} bytes of canonical JSON; at most {most} are kept. Shorten it, or attach the long part as a document.',
    'El registro tiene {n} bytes de JSON canónico y se guardan {most} a lo más. Acórtelo, o adjunte la parte larga como documento.',
  ],
  // Files.
  ['A document has at most {n} MiB.', 'Un documento tiene {n} MiB a lo más.'],
  ['The document did not arrive whole.', 'El documento no llegó entero.'],
  ['The document is empty.', 'El documento está vacío.'],
  ['has no bytes', 'no tiene bytes'],
  [
    'The content is not what Content-Type says, or not one of those taken: {types}.',
    'El contenido no es lo que dice Content-Type, o no es de los que se aceptan: {types}.',
  ],
  [
    'The file is not there any more. Attach it again from your own copy.',
    'El archivo ya no está. Adjúntelo otra vez de su propia copia.',
  ],
  [
    'The file is not the one that was attached: its digest differs.',
    'El archivo no es el que se adjuntó; su resumen es otro.',
  ],
  ['Send the document not compressed.', 'Envíe el documento sin comprimir.'],
  // Reports.
  [
    '{n} reports of yours are being made. Wait for one, or cancel one.',
    'Se están haciendo {n} informes suyos. Espere uno, o cancele uno.',
  ],
  ['The service was interrupted {n} times while making it.', 'El servicio se interrumpió {n} veces mientras lo hacía.'],
  [
    'It could not be made. Tell who runs the service; the log there says why.',
    'No se pudo hacer. Avise a quien lleva el servicio; allí está apuntado por qué.',
  ],
  ['What it should be about is not known.', 'No se conoce aquello de lo que tenía que tratar.'],
  ['There is no such report.', 'No hay ese informe.'],
  ['There is no report "{name}" in this form.', 'No hay informe «{name}» en esta forma.'],
  ['There is no such table in this report.', 'Este informe no tiene esa tabla.'],
  ['There is no such table in this report. There are: {names}.', 'Este informe no tiene esa tabla. Tiene: {names}.'],
  ['This report comes as {types}.', 'Este informe se da como {types}.'],
  ['The parameters are not as this report takes them.', 'Lo que se indicó no es como lo pide este informe.'],
  ['must be a kind of report', 'tiene que ser una clase de informe'],
  ['is not asked by this report: leave it out', 'este informe no lo pide; quítelo'],
  [
    'It is not made yet. Ask for the job until its state is `done`.',
    'Todavía no está hecho. Pregunte hasta que su estado sea «done».',
  ],
  ['The job is {state}. {why:told}', 'Está en el estado «{state}». {why:told}'],
  // Letters.
  ['no mail server was named (SMTP_URL)', 'no se indicó servidor de correo (SMTP_URL)'],
];
