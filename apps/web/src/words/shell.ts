import { catalogue } from './catalogue.ts';

/** Words of the frame and of what every view shares. */
export const shell = catalogue(
  {
    appName: 'Furrowmark',
    skip: 'To the content',
    navTanks: 'Tanks',
    navBatches: 'Batches',
    navMore: 'More',
    navWaiting: 'On this phone',
    mainNav: 'Main',
    more: 'More',
    back: 'Back',
    close: 'Close',
    again: 'Try again',
    allSent: (at: string) => `All recorded · ${at}`,
    neverHeard: 'Not heard from the service yet',
    nWaiting: (n: number) => (n === 1 ? '1 waiting for reception' : `${n} waiting for reception`),
    nSending: (n: number) => (n === 1 ? 'Sending 1' : `Sending ${n}`),
    nRefused: (n: number) => (n === 1 ? '1 was not taken' : `${n} were not taken`),
    nWaitSignIn: (n: number) =>
      n === 0
        ? 'Sign-in has ended'
        : n === 1
          ? 'Sign-in has ended · 1 waits here'
          : `Sign-in has ended · ${n} wait here`,
    noReception: (at: string) => `No reception · as of ${at}`,
    noReceptionYet: 'No reception',
    cannotSend: 'The service does not take records from here',
    loading: 'Loading',
    nothingHere: 'There is no such page.',
    nothingHereDo: 'Go to the tanks, or check the address.',
    brokeTitle: 'This page could not be drawn.',
    brokeDo:
      'What you recorded is kept on this phone. Load the page again; if it happens again, tell whoever runs the service.',
    loadAgain: 'Load again',
    firstTitle: 'This phone needs reception once',
    firstText: 'It has not read the records yet. Once it has, everything at the tank works without reception.',
    failedTitle: 'The records could not be read on this phone',
    updateReady: 'A new version is here. Nothing that waits is lost.',
    updateNow: 'Use it now',
    updateLater: 'Later',
    newerEntries: (n: number) =>
      n === 1
        ? '1 record was written by a newer version and is not shown. Update the app.'
        : `${n} records were written by a newer version and are not shown. Update the app.`,
    signInTitle: 'Sign in',
    signInAgain: 'Your sign-in has ended',
    signInAgainText: (n: number) =>
      n === 0
        ? 'Enter a new token, or open a new link.'
        : n === 1
          ? '1 record waits on this phone. It is sent as soon as you have signed in again, or save it as a file.'
          : `${n} records wait on this phone. They are sent as soon as you have signed in again, or save them as a file.`,
    tokenLabel: 'Token or link',
    tokenHelp: 'The office gives it to you. It stays on this phone until you sign out.',
    signInButton: 'Sign in',
    signOut: 'Sign out of this phone',
    signOutKeeps: 'Records that wait stay on this phone.',
    chooseOperation: 'Choose the operation',
    changeOperation: 'Another operation',
    settings: 'This phone',
    language: 'Language',
    theme: 'Light',
    themeAuto: 'As the phone',
    themeLight: 'Light',
    themeDark: 'Dark',
    themeSun: 'Bright sun',
    units: 'Beside what was written, show',
    unitsNone: 'Nothing else',
    unitsUs: 'US units',
    unitsMetric: 'Metric',
    caution: 'Records do not replace labels, local codes, your certifier or a licensed professional: those come first.',
    met: 'met',
    cautionWord: 'take care',
    broken: 'outside',
    due: 'due',
    unknown: 'cannot tell',
    notApplicable: 'does not apply',
    help: (term: string) => `About ${term}`,
    source: 'Source',
    words: 'Words',
    today: 'today',
    now: 'now',
    installHint: 'To keep it on the phone: open the browser’s menu, “Add to home screen”.',
  },
  {
    appName: 'Furrowmark',
    skip: 'Al contenido',
    navTanks: 'Tanques',
    navBatches: 'Lotes de té',
    navMore: 'Más',
    navWaiting: 'En este teléfono',
    mainNav: 'Principal',
    more: 'Más',
    back: 'Atrás',
    close: 'Cerrar',
    again: 'Intentar otra vez',
    allSent: (at) => `Todo anotado · ${at}`,
    neverHeard: 'Aún sin contacto con el servicio',
    nWaiting: (n) => (n === 1 ? '1 espera señal' : `${n} esperan señal`),
    nSending: (n) => (n === 1 ? 'Enviando 1' : `Enviando ${n}`),
    nRefused: (n) => (n === 1 ? '1 no fue aceptado' : `${n} no fueron aceptados`),
    nWaitSignIn: (n) =>
      n === 0
        ? 'La sesión terminó'
        : n === 1
          ? 'La sesión terminó · 1 espera aquí'
          : `La sesión terminó · ${n} esperan aquí`,
    noReception: (at) => `Sin señal · visto ${at}`,
    noReceptionYet: 'Sin señal',
    cannotSend: 'El servicio no acepta registros desde aquí',
    loading: 'Cargando',
    nothingHere: 'Esta página no existe.',
    nothingHereDo: 'Vaya a los tanques o revise la dirección.',
    brokeTitle: 'No se pudo mostrar esta página.',
    brokeDo:
      'Lo que anotó está guardado en este teléfono. Cargue la página otra vez; si vuelve a pasar, avise a quien lleva el servicio.',
    loadAgain: 'Cargar otra vez',
    firstTitle: 'Este teléfono necesita señal una vez',
    firstText: 'Todavía no ha leído los registros. Después, todo lo del tanque funciona sin señal.',
    failedTitle: 'No se pudieron leer los registros en este teléfono',
    updateReady: 'Hay una versión nueva. Lo que espera no se pierde.',
    updateNow: 'Usarla ahora',
    updateLater: 'Después',
    newerEntries: (n) =>
      n === 1
        ? '1 registro es de una versión más nueva y no se muestra. Actualice la aplicación.'
        : `${n} registros son de una versión más nueva y no se muestran. Actualice la aplicación.`,
    signInTitle: 'Entrar',
    signInAgain: 'Su sesión terminó',
    signInAgainText: (n) =>
      n === 0
        ? 'Escriba un código nuevo o abra un enlace nuevo.'
        : n === 1
          ? '1 registro espera en este teléfono. Se envía en cuanto entre otra vez, o guárdelo en un archivo.'
          : `${n} registros esperan en este teléfono. Se envían en cuanto entre otra vez, o guárdelos en un archivo.`,
    tokenLabel: 'Código o enlace',
    tokenHelp: 'Se lo da la oficina. Queda en este teléfono hasta que salga.',
    signInButton: 'Entrar',
    signOut: 'Salir en este teléfono',
    signOutKeeps: 'Los registros que esperan quedan en este teléfono.',
    chooseOperation: 'Elija la finca',
    changeOperation: 'Otra finca',
    settings: 'Este teléfono',
    language: 'Idioma',
    theme: 'Luz',
    themeAuto: 'Como el teléfono',
    themeLight: 'Claro',
    themeDark: 'Oscuro',
    themeSun: 'Pleno sol',
    units: 'Junto a lo escrito, mostrar',
    unitsNone: 'Nada más',
    unitsUs: 'Unidades de EE. UU.',
    unitsMetric: 'Métricas',
    caution:
      'Los registros no sustituyen etiquetas, normas locales, su certificadora ni a un profesional con licencia: eso va primero.',
    met: 'cumple',
    cautionWord: 'cuidado',
    broken: 'fuera',
    due: 'pendiente',
    unknown: 'no se sabe',
    notApplicable: 'no aplica',
    help: (term) => `Sobre ${term}`,
    source: 'Fuente',
    words: 'Palabras',
    today: 'hoy',
    now: 'ahora',
    installHint: 'Para tenerla en el teléfono: menú del navegador, «Añadir a pantalla de inicio».',
  },
);
