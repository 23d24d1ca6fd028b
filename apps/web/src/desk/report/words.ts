import { catalogue } from '../../words/catalogue.ts';

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
    days: 'Days of the operation’s own zone, both included.',
    none: 'There is none yet.',
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
    days: 'Días de la zona de la finca, los dos incluidos.',
    none: 'Todavía no hay ninguno.',
  },
);
