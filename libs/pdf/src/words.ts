import type { ReportContent } from '@furrowmark/reports';

/** The few words that the page itself adds to a report. */
export interface PageWords {
  readonly pageOf: (page: number) => string;
  readonly logEntries: (size: number) => string;
  readonly root: string;
  readonly was: string;
  readonly caution: string;
  readonly note: string;
  readonly limit: string;
  readonly saturation: string;
  readonly oxygen: string;
  readonly lanes: { readonly air: string; readonly brew: string; readonly hold: string };
  readonly total: string;
  readonly noRows: string;
  readonly checkpoint: string;
  readonly checkpointAlt: string;
  readonly furtherNodes: (count: number) => string;
  readonly notPrintable: string;
  readonly data: string;
}

export const words: Readonly<Record<ReportContent['language'], PageWords>> = {
  en: {
    pageOf: (page) => `page ${page} of `,
    logEntries: (size) => `log of ${size} ${size === 1 ? 'record' : 'records'}`,
    root: 'root',
    was: 'was',
    caution: 'Caution',
    note: 'Note',
    limit: 'limit',
    saturation: 'saturation',
    oxygen: 'dissolved oxygen, mg/L',
    lanes: { air: 'air', brew: 'brew', hold: 'hold' },
    total: 'Total',
    noRows: 'Nothing recorded.',
    checkpoint: 'The log at this size, signed. Scan and keep it: it shows later whether anything was rewritten.',
    checkpointAlt: 'QR code of the signed checkpoint of the log',
    furtherNodes: (count) => `${count} more, in the table`,
    notPrintable:
      'Signs that this typeface does not have are printed as their Unicode number, such as [U+6F22]; the attached data has them as written.',
    data: 'The data of this report',
  },
  es: {
    pageOf: (page) => `página ${page} de `,
    logEntries: (size) => `registro de ${size} ${size === 1 ? 'anotación' : 'anotaciones'}`,
    root: 'raíz',
    was: 'antes',
    caution: 'Precaución',
    note: 'Nota',
    limit: 'límite',
    saturation: 'saturación',
    oxygen: 'oxígeno disuelto, mg/L',
    lanes: { air: 'aire', brew: 'fermentación', hold: 'espera' },
    total: 'Total',
    noRows: 'Nada anotado.',
    checkpoint: 'El registro hasta aquí, firmado. Escanéelo y guárdelo: mostrará después si algo se reescribió.',
    checkpointAlt: 'Código QR del punto de control firmado del registro',
    furtherNodes: (count) => `${count} más, en la tabla`,
    notPrintable:
      'Los signos que esta letra no tiene se imprimen como su número Unicode, por ejemplo [U+6F22]; los datos adjuntos los llevan tal como se escribieron.',
    data: 'Los datos de este informe',
  },
};
