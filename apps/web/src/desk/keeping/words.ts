import { catalogue } from '../../words/catalogue.ts';

/** Words of keeping the log. */
export const keepingWords = catalogue(
  {
    title: 'Keeping the log',
    intro:
      'The log is worth something because others can check it: with an archive, with checkpoints out of your reach, with the key they hold.',
    away: 'Take it away',
    awayText:
      'The archive has every entry, and can be checked without this service. The checkpoint fixes which entries there are today: give it to somebody outside.',
    getArchive: 'Whole log (archive)',
    getCheckpoint: 'Checkpoint of today',
    witnesses: 'Witnesses',
    witnessesText:
      'Somebody outside, such as the certifier, who gets a checkpoint by mail every so often and keeps it. It says nothing of what was recorded; kept out of your reach it shows later whether anything was changed.',
    noMail: 'This service has no mail server, so nothing is sent. Whoever installed it names one (SMTP_URL).',
    noWitnesses: 'Nobody yet.',
    every: (days: number) => (days === 1 ? 'every day' : `every ${String(days)} days`),
    notYet: 'nothing sent yet',
    sent: (day: string, size: number) => `sent ${day}, ${String(size)} entries`,
    failed: 'The last letter did not go out; it is tried again:',
    endWitness: 'Send no more',
    endWitnessSure: (address: string) => `${address} gets no more checkpoints. What they have stays good. End it?`,
    addWitness: 'Add a witness',
    witnessAdded: 'Added. The first letter goes out within a minute.',
    address: 'E-mail address',
    addressHelp: 'Kept beside the log, never in it.',
    everyDays: 'Every so many days',
    key: 'Key of the log',
    keyText:
      'The public half. Whoever checks the log holds this line, on paper or from a letter: the one inside an archive proves nothing.',
    replaceKey: 'Replace the key',
    replaceText:
      'Where the private half may have been seen by others. Both keys sign the change, and it is recorded. Hand the new line to everybody who held the old one.',
    replaced: 'Replaced, and recorded. Print the new line.',
    reason: 'Reason',
    reasonHelp: 'It is recorded.',
    archive: 'A log from elsewhere',
    archiveText:
      'An archive that another service made. It is checked entry by entry, and can only be read here until it is taken over.',
    takeArchive: 'Take an archive',
    archiveFile: 'Choose the archive',
    archiveTaken: 'Taken.',
    knownKey: 'Key line that you hold',
    knownKeyHelp: 'From outside the archive. With it the archive must be signed by just this key.',
    entriesTaken: (n: number) => `${String(n)} entries came in. The operation is read-only until it is taken over.`,
    signedBy: 'Signed with',
    openIt: 'Open this operation',
    takeOver: 'Take over this operation',
    takeOverText:
      'For an operation that came as an archive and is opened here now. From then on it is carried on here, under a new key, and that is recorded. Nobody may go on writing at the place it came from: a log that grows in two places can no longer be trusted.',
    takenOver: 'Taken over, and recorded.',
  },
  {
    title: 'El cuidado del libro',
    intro:
      'El libro vale porque otros lo pueden comprobar: con un archivo, con puntos de control fuera de su alcance, con la clave que tienen.',
    away: 'Llevárselo',
    awayText:
      'El archivo tiene cada entrada y se comprueba sin este servicio. El punto de control fija qué entradas hay hoy: déselo a alguien de fuera.',
    getArchive: 'El libro entero (archivo)',
    getCheckpoint: 'Punto de control de hoy',
    witnesses: 'Testigos',
    witnessesText:
      'Alguien de fuera, como la certificadora, que recibe por correo un punto de control cada tanto y lo guarda. No dice nada de lo anotado; guardado fuera de su alcance muestra después si algo se cambió.',
    noMail:
      'Este servicio no tiene servidor de correo, así que no se manda nada. Quien lo instaló indica uno (SMTP_URL).',
    noWitnesses: 'Todavía nadie.',
    every: (days) => (days === 1 ? 'cada día' : `cada ${String(days)} días`),
    notYet: 'todavía no se mandó nada',
    sent: (day, size) => `mandado ${day}, ${String(size)} entradas`,
    failed: 'La última carta no salió; se intenta otra vez:',
    endWitness: 'No mandar más',
    endWitnessSure: (address) =>
      `${address} no recibe más puntos de control. Los que tiene siguen valiendo. ¿Terminar?`,
    addWitness: 'Agregar un testigo',
    witnessAdded: 'Agregado. La primera carta sale en un minuto.',
    address: 'Dirección de correo',
    addressHelp: 'Se guarda al lado del libro, nunca en él.',
    everyDays: 'Cada tantos días',
    key: 'Clave del libro',
    keyText:
      'La mitad pública. Quien comprueba el libro tiene esta línea, en papel o de una carta: la que va dentro de un archivo no prueba nada.',
    replaceKey: 'Cambiar la clave',
    replaceText:
      'Si otros pudieron ver la mitad secreta. Las dos claves firman el cambio, y queda anotado. Entregue la línea nueva a todos los que tenían la vieja.',
    replaced: 'Cambiada, y anotado. Imprima la línea nueva.',
    reason: 'Razón',
    reasonHelp: 'Queda anotada.',
    archive: 'Un libro de otra parte',
    archiveText:
      'Un archivo que hizo otro servicio. Se comprueba entrada por entrada, y aquí solo se lee hasta que se toma a cargo.',
    takeArchive: 'Recibir un archivo',
    archiveFile: 'Elegir el archivo',
    archiveTaken: 'Recibido.',
    knownKey: 'Línea de clave que usted tiene',
    knownKeyHelp: 'De fuera del archivo. Con ella, el archivo tiene que estar firmado con esa misma clave.',
    entriesTaken: (n) => `Entraron ${String(n)} entradas. La finca solo se lee hasta que se toma a cargo.`,
    signedBy: 'Firmado con',
    openIt: 'Abrir esta finca',
    takeOver: 'Tomar a cargo esta finca',
    takeOverText:
      'Para una finca que llegó como archivo y está abierta aquí. Desde entonces sigue aquí, con una clave nueva, y queda anotado. Nadie puede seguir escribiendo donde estaba: un libro que crece en dos lugares ya no es de fiar.',
    takenOver: 'Tomada a cargo, y anotado.',
  },
);
