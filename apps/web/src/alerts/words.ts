import { catalogue } from '../words/catalogue.ts';

/** Words of what this phone tells of. */
export const alertWords = catalogue(
  {
    title: 'Alerts on this phone',
    text: 'This phone can tell you what is due at the tanks, before it is due, and what the rules find broken. Each thing is told once.',
    limits:
      'It knows the time and the records that are on it, with or without reception. Keep the app open, or let it run behind others: a phone that was switched off, or that puts the app to sleep, tells nothing. Do not rely on it alone where tea would spoil.',
    on: 'Tell me',
    off: 'Do not tell me',
    whether: 'Alerts',
    cannot: 'This browser cannot show alerts.',
    denied:
      'The phone does not let this app show alerts. Allow it in the phone’s or the browser’s settings for this page.',
    lead: 'How long before it is due',
    leadNone: 'when it is due',
    leadMinutes: (n: number) => `${n} min before`,
    quiet: 'Quiet hours',
    quietText: 'What comes in them is told when they end. Air and oxygen are told at any hour: that tea does not wait.',
    quietOn: 'Quiet',
    quietOff: 'None',
    from: 'from',
    until: 'until',
    try: 'Show one now',
    tried: 'This is how an alert looks.',
    outside: (rule: string) => `To look into: ${rule}`,
  },
  {
    title: 'Avisos en este teléfono',
    text: 'Este teléfono puede avisar de lo que toca en los tanques, antes de la hora, y de lo que las reglas encuentran mal. Cada cosa se avisa una vez.',
    limits:
      'Conoce la hora y los registros que tiene, con o sin señal. Deje la aplicación abierta, o detrás de otras: un teléfono apagado, o que duerme la aplicación, no avisa. No dependa solo de esto donde el té se echaría a perder.',
    on: 'Avisarme',
    off: 'No avisarme',
    whether: 'Avisos',
    cannot: 'Este navegador no puede mostrar avisos.',
    denied:
      'El teléfono no deja que esta aplicación muestre avisos. Permítalo en los ajustes del teléfono o del navegador.',
    lead: 'Cuánto antes de la hora',
    leadNone: 'a la hora',
    leadMinutes: (n) => `${n} min antes`,
    quiet: 'Horas de silencio',
    quietText:
      'Lo que llega en ellas se avisa cuando terminan. El aire y el oxígeno se avisan a cualquier hora: ese té no espera.',
    quietOn: 'Silencio',
    quietOff: 'Ninguna',
    from: 'desde',
    until: 'hasta',
    try: 'Mostrar uno ahora',
    tried: 'Así se ve un aviso.',
    outside: (rule) => `Por revisar: ${rule}`,
  },
);
