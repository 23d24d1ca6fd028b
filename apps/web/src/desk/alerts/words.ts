import { catalogue } from '../../words/catalogue.ts';

/** Words of the alerts by e-mail. */
export const alertWords = catalogue(
  {
    title: 'Alerts by e-mail',
    intro:
      'What falls due and what broke a limit, told to you once, by letter. Only if you ask for it, and only in this operation. An alert is a help, not a watch: mail is late at times.',
    noMail: 'This service has no mail server, so no letter goes out. Whoever installed it names one (SMTP_URL).',
    failed: 'The last letter did not go out; it is tried again. The mail server said:',
    address: 'Your e-mail address',
    addressHelp: 'Kept beside the records, never in them. It is deleted when you end the alerts.',
    tells: 'Tell me',
    tell_tank: 'what is due at tanks and in the field',
    tell_office: 'what the office owes: tests, papers, signatures',
    tell_broken: 'what broke a limit',
    nothingChosen: 'Choose at least one, or end the alerts.',
    quiet: 'At night',
    quietHelp:
      'The operation’s own clock. What is done meanwhile is not told in the morning. Air and oxygen do not wait: a tank without them is lost by then.',
    quietYes: 'wait for the morning, but for air and oxygen',
    quietNo: 'tell me at any time',
    from: 'Quiet from',
    until: 'Quiet until',
    language: 'Language of the letters',
    begin: 'Tell me by e-mail',
    change: 'Change',
    done: 'Kept. The first letter comes when something falls due.',
    end: 'End the alerts',
    endSure: 'No more letters, and the address is deleted?',
  },
  {
    title: 'Avisos por correo',
    intro:
      'Lo que vence y lo que pasó un límite, dicho una vez, por carta. Solo si usted lo pide, y solo de esta finca. Un aviso ayuda, no vigila: el correo a veces tarda.',
    noMail:
      'Este servicio no tiene servidor de correo, así que no sale ninguna carta. Quien lo instaló indica uno (SMTP_URL).',
    failed: 'La última carta no salió; se intenta otra vez. El servidor de correo dijo:',
    address: 'Su dirección de correo',
    addressHelp: 'Se guarda al lado de los registros, nunca en ellos. Se borra cuando termina los avisos.',
    tells: 'Avisarme de',
    tell_tank: 'lo que vence en tanques y en el campo',
    tell_office: 'lo que debe la oficina: análisis, papeles, firmas',
    tell_broken: 'lo que pasó un límite',
    nothingChosen: 'Elija al menos uno, o termine los avisos.',
    quiet: 'De noche',
    quietHelp:
      'Según el reloj de la finca. De lo que se hizo entretanto no se avisa por la mañana. El aire y el oxígeno no esperan: un tanque sin ellos ya se habría perdido.',
    quietYes: 'esperar a la mañana, menos aire y oxígeno',
    quietNo: 'avisarme a cualquier hora',
    from: 'Silencio desde',
    until: 'Silencio hasta',
    language: 'Idioma de las cartas',
    begin: 'Avisarme por correo',
    change: 'Cambiar',
    done: 'Guardado. La primera carta llega cuando algo venza.',
    end: 'Terminar los avisos',
    endSure: '¿Ninguna carta más, y borrar la dirección?',
  },
);
