import type { Sentence } from '@furrowmark/reports/in-spanish';

/** Why somebody does not come in, may not do it, or has to choose another password, PIN or person. */
export const accessSentences: readonly Sentence[] = [
  // Coming in.
  ['Name or password is not right.', 'El nombre o la contraseña no es correcto.'],
  ['The PIN is not right.', 'El PIN no es correcto.'],
  [
    'It was wrong too often. Wait {n} min, then try again.',
    'Se escribió mal demasiadas veces. Espere {n} min y pruebe otra vez.',
  ],
  ['Too many requests. Wait a moment.', 'Demasiadas peticiones. Espere un momento.'],
  ['More than {n} requests in a minute. Wait.', 'Más de {n} peticiones en un minuto. Espere.'],
  [
    'No token, or one that is not valid (any more). Sign in, or ask for a new one.',
    'No hay código, o ya no vale. Entre otra vez, o pida uno nuevo.',
  ],
  [
    'PINs are for the phones that people of an operation share.',
    'Los PIN son para los teléfonos que varios comparten.',
  ],
  [
    'This token is no session. It is withdrawn where it was made.',
    'Este código no es una sesión. Se retira donde se hizo.',
  ],
  // Passwords, PINs and names to sign in with.
  [
    'The present password is not right. Nothing was changed.',
    'La contraseña actual no es correcta. No se cambió nada.',
  ],
  ['is not right', 'no es correcto'],
  ['The password {why:told}.', 'La contraseña {why:told}.'],
  ['The login {why:told}.', 'El nombre para entrar {why:told}.'],
  ['The PIN {why:told}.', 'El PIN {why:told}.'],
  [
    'must have at least {n} characters: four or five words in a row will do',
    'tiene que llevar al menos {n} letras; bastan cuatro o cinco palabras seguidas',
  ],
  ['must have at most {n} characters', 'puede llevar {n} letras a lo más'],
  ['must have {n} to {most} characters', 'tiene que llevar de {n} a {most} letras'],
  [
    'is easy to guess: choose words that have nothing to do with each other',
    'es fácil de adivinar; escoja palabras que no tengan que ver una con otra',
  ],
  ['is needed: choose the name to sign in with', 'hace falta; escoja el nombre con que va a entrar'],
  ['must be four to eight digits', 'tiene que llevar de cuatro a ocho cifras'],
  ['must not be one digit repeated or digits in a row', 'no puede ser una cifra repetida ni cifras seguidas'],
  ['Somebody signs in with that name already. Choose another.', 'Alguien entra ya con ese nombre. Escoja otro.'],
  ['is taken', 'ya está ocupado'],
  // Invitations and members.
  ['This invitation is not valid (any more). Ask for a new one.', 'Esta invitación ya no vale. Pida una nueva.'],
  [
    'Sign in as the person that the invitation is for, or give a password.',
    'Entre como la persona que fue invitada, o escoja una contraseña.',
  ],
  [
    'You are a member already. A manager changes what you are there.',
    'Usted ya está en esta finca. Su función la cambia quien administra.',
  ],
  [
    'With a PIN alone somebody can be a recorder or a reviewer.',
    'Con solo un PIN se puede anotar o revisar, nada más.',
  ],
  ['must be recorder or reviewer where a PIN is given', 'tiene que ser de quien anota o revisa, si se da un PIN'],
  [
    'The operation would be left without a manager. Name another one first.',
    'La finca se quedaría sin quien la administre. Ponga primero a otra persona.',
  ],
  // What somebody may do.
  ['There is nothing here that you can see.', 'Aquí no hay nada que usted pueda ver.'],
  [
    'Your role here only reads. Ask a manager for another one.',
    'Su función aquí es solo leer. Pida otra a quien administra.',
  ],
  ['Only managers may do this. Ask one of them.', 'Solo quienes administran pueden hacer esto. Pídalo a uno de ellos.'],
  [
    'Only managers decide about the key of the log and its witnesses.',
    'Sobre la clave del libro y sus testigos deciden solo quienes administran.',
  ],
  [
    'You set your own PIN, signed in as yourself; managers set anybody’s.',
    'Cada quien pone su propio PIN, entrando por sí mismo; quienes administran ponen el de cualquiera.',
  ],
  [
    'This can only be done signed in as a person, not through a link, a program or a shared phone.',
    'Esto lo hace solo una persona que entró por sí misma, no un enlace, un programa o un teléfono compartido.',
  ],
  [
    'The first password is chosen at the desk, not on a phone.',
    'La primera contraseña se elige en la oficina, no en un teléfono.',
  ],
  [
    'A phone withdraws its own token only. The others are withdrawn at the desk.',
    'Un teléfono retira solo su propio código. Los demás se retiran en la oficina.',
  ],
  [
    'New tokens are made at the desk, signed in with a password.',
    'Los códigos nuevos se hacen en la oficina, entrando con contraseña.',
  ],
  ['Import signed in as a person.', 'Para recibir un archivo, entre por sí mismo.'],
  ['{member} must be one of your operations.', '{member} tiene que ser una de sus fincas.'],
  ['must be one of your operations', 'tiene que ser una de sus fincas'],
  // Reading links.
  ['This link only reads.', 'Este enlace solo lee.'],
  ['This link does not open that.', 'Este enlace no abre eso.'],
  [
    'This link reads {period:told}. Ask the operation for one that reaches further.',
    'Este enlace lee {period:told}. Pida a la finca uno que llegue más lejos.',
  ],
  ['from {from} to {to}', 'desde {from} hasta {to}'],
  ['from {from} on', 'desde {from}'],
  ['up to {to}', 'hasta {to}'],
  ['A link reads five years back at most: from {day}.', 'Un enlace lee a lo más cinco años atrás, desde el {day}.'],
  ['The period ends before it begins ({day}).', 'El período termina antes de empezar ({day}).'],
  ['must not lie before {day}', 'no puede ser antes del {day}'],
  // Signing.
  [
    'The password is not right, or you have none yet. Nothing was signed.',
    'La contraseña no es correcta, o usted todavía no tiene. No se firmó nada.',
  ],
  ['The PIN is not right. Nothing was signed.', 'El PIN no es correcto. No se firmó nada.'],
  [
    'Your password is needed to sign (on a shared phone where you are signed in: your PIN).',
    'Para firmar hace falta su contraseña (en un teléfono compartido donde entró, su PIN).',
  ],
  [
    'is needed to sign (on a shared phone where you are signed in: your PIN)',
    'hace falta para firmar (en un teléfono compartido donde entró, su PIN)',
  ],
  [
    'This id stands for something else. Take a new one. Nothing was signed.',
    'Este identificador es de otra cosa. Tome uno nuevo. No se firmó nada.',
  ],
  ['was used before', 'ya se usó'],
  ['It was not recorded.', 'No se anotó.'],
  ['must be the seq of an entry of the log: 0 to {n}', 'tiene que ser el número de una entrada del libro, de 0 a {n}'],
  ['throughSeq {why:told}.', 'La última entrada que se firma {why:told}.'],
];
