import { catalogue } from '../../words/catalogue.ts';

const kindIn = (mediaType: string, photo: string, paper: string): string =>
  mediaType.startsWith('image/') ? photo : mediaType === 'application/pdf' ? 'PDF' : paper;

/** Words of documents. */
export const documentWords = catalogue(
  {
    title: 'Documents',
    nothing: 'None attached.',
    kindOf: (mediaType: string) => kindIn(mediaType, 'photo', 'text'),
    open: 'Open',
    openOf: (title: string) => `Open ${title}`,
    altered:
      'What the service has is not what was attached: its digest differs from the log’s. Keep this page and ask whoever runs the service.',
    attach: 'Attach a document',
    choose: 'Choose a file',
    chooseHelp:
      'PDF, photo or text, 25 MiB at most. Photos are made smaller, and lose what the camera wrote about the place.',
    chooseFirst: 'Choose a file first.',
    name: 'What it is',
    nameHelp: 'Such as “receipt” or “laboratory result, 12 May”. It is recorded: no person’s name.',
    tooLarge: 'The file is larger than 25 MiB. Scan it smaller, or split it.',
    empty: 'The file is empty. Choose another one.',
    otherKind: 'Only PDF, photos and plain text can be attached. Print it to a PDF first.',
    unreadable: 'This browser cannot read the picture. Save it as JPEG or PNG and choose it again.',
  },
  {
    title: 'Documentos',
    nothing: 'No hay ninguno.',
    kindOf: (mediaType) => kindIn(mediaType, 'foto', 'texto'),
    open: 'Abrir',
    openOf: (title) => `Abrir ${title}`,
    altered:
      'Lo que tiene el servicio no es lo que se adjuntó: su huella no es la del libro. Guarde esta página y pregunte a quien lleva el servicio.',
    attach: 'Adjuntar un documento',
    choose: 'Elegir un archivo',
    chooseHelp:
      'PDF, foto o texto, 25 MiB como máximo. Las fotos se achican y pierden lo que la cámara escribió del lugar.',
    chooseFirst: 'Elija primero un archivo.',
    name: 'Qué es',
    nameHelp: 'Por ejemplo «recibo» o «resultado del laboratorio, 12 de mayo». Queda anotado: sin nombres de personas.',
    tooLarge: 'El archivo pasa de 25 MiB. Escanéelo más chico, o divídalo.',
    empty: 'El archivo está vacío. Elija otro.',
    otherKind: 'Solo se adjuntan PDF, fotos y texto. Imprímalo primero a PDF.',
    unreadable: 'Este navegador no puede leer la imagen. Guárdela como JPEG o PNG y elíjala otra vez.',
  },
);
