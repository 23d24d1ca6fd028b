import { catalogue } from '../../words/catalogue.ts';

/** Words of the people that the records name. */
export const peopleWords = catalogue(
  {
    title: 'People',
    intro:
      'Whom the records name: who writes, does things, sprays, approves. Who may sign in is another matter: see People and access.',
    register: 'Register somebody',
    trained: 'Record a training',
    trainings: 'Trained',
    erased: (reason: string) => `name erased: ${reason}`,
    left: (reason: string) => `left: ${reason}`,
    change: 'Correct or change',
    way: 'What is it?',
    revise: 'It has changed',
    revise_help:
      'Another name, title or address from now on. The log keeps what was written before; lists and reports show what holds now.',
    amend: 'It was written wrongly',
    amend_help: 'The correction counts from the beginning. What was first written stays sealed in the log.',
    retire: 'They have left',
    retire_help:
      'They are not offered any more where somebody is chosen. What they did stays, with their name. If they sign in, end that under People and access.',
    name: 'Name',
    initials: 'Initials',
    personTitle: 'Title or task',
    address: 'Address',
    addressHelp: 'Some laws ask for the address of who applied. Leave it out where none does.',
    reads: 'Reads',
    reason: 'Reason',
    reasonHelp: 'It stays in the log as written, for ever: no name in it, and nothing private.',
    leftAt: 'When they left',
    leftAtHelp: 'Left empty: now.',
    nothingChanged: 'Nothing is written otherwise than before.',
    erase: 'Erase the name',
    eraseWhat: 'What it does',
    eraseDoes:
      'Name, initials, title and address are taken out of the service for good: nobody can bring them back. Phones and computers take them out when they next have reception, and finished reports that wait to be fetched are removed.',
    eraseNot: 'What it does not do',
    eraseNotRecords:
      'The records stay, with a number in place of the name. That somebody was erased, when and why stays too.',
    eraseNotTexts: 'Notes, reasons, photos and papers stay as they are, also where the name is in them.',
    eraseNotCopies:
      'Archives, backups, exports, printed pages and PDF files that were made before keep the name. They are in your hands.',
    eraseNotAccess: 'The name and the sign-in under People and access stay. End the sign-in there.',
    eraseWhen:
      'Records are kept for at least five years (7 CFR 205.103(b)(3)): the service erases nobody sooner than five years after the last record by or about them, and says until when. Other law, your certifier or a dispute may ask for longer: ask before you erase.',
    eraseNext: 'Go on to erase',
    eraseSure: (name: string) => `Erase the name of ${name} for good? It cannot be undone.`,
    eraseYes: 'Yes, erase it for good',
    erasedNow: 'Erased.',
    notErased: 'Nothing was erased.',
  },
  {
    title: 'Personas',
    intro:
      'A quienes nombran los registros: quien escribe, hace, aplica, aprueba. Quién puede entrar es otra cosa: vea Personas y acceso.',
    register: 'Registrar a alguien',
    trained: 'Anotar una capacitación',
    trainings: 'Capacitación',
    erased: (reason) => `nombre borrado: ${reason}`,
    left: (reason) => `ya no está: ${reason}`,
    change: 'Corregir o cambiar',
    way: '¿Qué pasó?',
    revise: 'Ha cambiado',
    revise_help:
      'Otro nombre, cargo o dirección desde ahora. El libro conserva lo escrito antes; listas e informes muestran lo que vale ahora.',
    amend: 'Se escribió mal',
    amend_help: 'La corrección vale desde el principio. Lo primero que se escribió queda sellado en el libro.',
    retire: 'Ya no está',
    retire_help:
      'Ya no se ofrece donde se elige a alguien. Lo que hizo queda, con su nombre. Si puede entrar, termínelo en Personas y acceso.',
    name: 'Nombre',
    initials: 'Iniciales',
    personTitle: 'Cargo o tarea',
    address: 'Dirección',
    addressHelp: 'Algunas leyes piden la dirección de quien aplicó. Si ninguna la pide, déjela vacía.',
    reads: 'Lee',
    reason: 'Razón',
    reasonHelp: 'Queda en el libro como se escriba, para siempre: sin nombres y sin nada privado.',
    leftAt: 'Cuándo se fue',
    leftAtHelp: 'Si queda vacío: ahora.',
    nothingChanged: 'Nada está escrito distinto de antes.',
    erase: 'Borrar el nombre',
    eraseWhat: 'Qué hace',
    eraseDoes:
      'Nombre, iniciales, cargo y dirección salen del servicio para siempre: nadie los puede recuperar. Los teléfonos y computadoras los quitan cuando vuelvan a tener señal, y se quitan los informes hechos que esperan ser bajados.',
    eraseNot: 'Qué no hace',
    eraseNotRecords:
      'Los registros quedan, con un número en lugar del nombre. También queda que se borró a alguien, cuándo y por qué.',
    eraseNotTexts: 'Notas, razones, fotos y papeles quedan como están, aunque el nombre esté en ellos.',
    eraseNotCopies:
      'Los archivos, respaldos, exportaciones, hojas impresas y PDF hechos antes conservan el nombre. Eso queda en sus manos.',
    eraseNotAccess: 'El nombre y la entrada en Personas y acceso quedan. Termine la entrada allí.',
    eraseWhen:
      'Los registros se guardan por lo menos cinco años (7 CFR 205.103(b)(3)): el servicio no borra a nadie antes de cinco años desde el último registro de la persona o sobre ella, y dice hasta cuándo. Otra ley, su certificadora o un pleito pueden pedir más: pregunte antes de borrar.',
    eraseNext: 'Seguir para borrar',
    eraseSure: (name) => `¿Borrar para siempre el nombre de ${name}? No se puede deshacer.`,
    eraseYes: 'Sí, borrarlo para siempre',
    erasedNow: 'Borrado.',
    notErased: 'No se borró nada.',
  },
);
