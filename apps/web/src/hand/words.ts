import { catalogue } from '../words/catalogue.ts';

/** Words of a phone that several people share. */
export const handWords = catalogue(
  {
    title: 'Who holds this phone?',
    text: 'Choose your initials and enter your PIN. What you record from then on is in your name. After half an hour untouched the phone asks again.',
    people: 'People with a PIN',
    holds: (name: string) => `${name} holds this phone.`,
    putDown: 'I put it down',
    pinOf: (name: string) => `PIN of ${name}`,
    begin: 'It is me',
    erase: 'erase',
    nobody: 'Nobody has a PIN for this phone yet. A manager sets it under “People and access”.',
    noReception:
      'The PIN needs reception. Go on all the same: each record asks by initials who did it, and waits here until it can be sent.',
    wait: (seconds: number) =>
      seconds < 120
        ? `Too many wrong PINs. Wait ${seconds} seconds.`
        : `Too many wrong PINs. Wait ${Math.ceil(seconds / 60)} minutes.`,
    wrong: 'The PIN is not right.',
    notShared: 'This phone belongs to one person. A phone for several is added by a manager under “People and access”.',
    queueStays: 'What waits here stays in the name of whoever entered it.',
  },
  {
    title: '¿Quién tiene este teléfono?',
    text: 'Elija sus iniciales y escriba su PIN. Lo que anote desde entonces va a su nombre. Tras media hora sin tocarlo, el teléfono pregunta otra vez.',
    people: 'Personas con PIN',
    holds: (name) => `${name} tiene este teléfono.`,
    putDown: 'Lo dejo',
    pinOf: (name) => `PIN de ${name}`,
    begin: 'Soy yo',
    erase: 'borrar',
    nobody: 'Nadie tiene todavía un PIN para este teléfono. Un encargado lo pone en «Personas y acceso».',
    noReception:
      'El PIN necesita señal. Siga de todos modos: cada registro pregunta por iniciales quién lo hizo, y espera aquí hasta que se pueda enviar.',
    wait: (seconds) =>
      seconds < 120
        ? `Demasiados PIN equivocados. Espere ${seconds} segundos.`
        : `Demasiados PIN equivocados. Espere ${Math.ceil(seconds / 60)} minutos.`,
    wrong: 'El PIN no es correcto.',
    notShared:
      'Este teléfono es de una persona. Un teléfono para varias lo agrega un encargado en «Personas y acceso».',
    queueStays: 'Lo que espera aquí queda a nombre de quien lo escribió.',
  },
);
