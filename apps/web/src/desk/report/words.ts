import { catalogue } from '../../words/catalogue.ts';

const statesEn: Readonly<Record<string, string>> = {
  waiting: 'waiting its turn',
  done: 'done',
  failed: 'failed',
  cancelled: 'cancelled',
};
const statesEs: Readonly<Record<string, string>> = {
  waiting: 'espera su turno',
  done: 'hecho',
  failed: 'falló',
  cancelled: 'cancelado',
};

/** Words of the reports. */
export const reportWords = catalogue(
  {
    title: 'Reports',
    intro:
      'Each as PDF to print or keep, as CSV for a spreadsheet, as JSON for a program. They are made by the service and need reception.',
    kind: 'Report',
    from: 'From',
    until: 'Until',
    on: 'On',
    since: 'Since',
    about: 'About',
    loading: 'Asking which reports there are …',
    failed: 'Reports need reception.',
    days: 'Days of the operation’s own zone, both included. Left empty: this calendar year so far; through a reading link, all that it reads.',
    sinceHelp: 'Left empty: since the last inspection on record.',
    none: 'There is none yet.',
    background: 'Make the PDF in the background',
    backgroundHelp: 'For long periods: it goes on while you do something else, and waits here for a week.',
    backgroundAsked: 'Asked for. It stands below.',
    jobs: 'Made in the background',
    stateOf: (state: string, percent: number) =>
      state === 'running' ? `${String(percent)} %` : (statesEn[state] ?? state),
    fetch: 'Get the file',
    cancel: 'Cancel',
    cancelSure: 'What was made of it so far is thrown away. Cancel it?',
    remove: 'Remove',
    removeSure: 'The file is removed; it can be made again. Remove it?',
  },
  {
    title: 'Informes',
    intro:
      'Cada uno en PDF para imprimir o guardar, en CSV para una hoja de cálculo, en JSON para un programa. Los hace el servicio y necesitan señal.',
    kind: 'Informe',
    from: 'Desde',
    until: 'Hasta',
    on: 'El día',
    since: 'Desde',
    about: 'Sobre',
    loading: 'Preguntando qué informes hay …',
    failed: 'Los informes necesitan señal.',
    days: 'Días de la zona de la finca, los dos incluidos. Vacío: este año hasta hoy; por un enlace de lectura, todo lo que abarca.',
    sinceHelp: 'Vacío: desde la última inspección anotada.',
    none: 'Todavía no hay ninguno.',
    background: 'Hacer el PDF en segundo plano',
    backgroundHelp: 'Para períodos largos: sigue mientras usted hace otra cosa, y espera aquí una semana.',
    backgroundAsked: 'Pedido. Está abajo.',
    jobs: 'Hechos en segundo plano',
    stateOf: (state, percent) => (state === 'running' ? `${String(percent)} %` : (statesEs[state] ?? state)),
    fetch: 'Traer el archivo',
    cancel: 'Cancelar',
    cancelSure: 'Lo hecho hasta ahora se tira. ¿Cancelar?',
    remove: 'Quitar',
    removeSure: 'El archivo se quita; se puede hacer otra vez. ¿Quitarlo?',
  },
);
