import { catalogue } from '../../words/catalogue.ts';

/** Words of the review queue. */
export const reviewWords = catalogue(
  {
    title: 'To review',
    intro:
      'Closed batches that nobody has signed since their last record or correction. Read the record, answer what broke, then sign.',
    none: 'Nothing waits for a signature.',
    open: 'Read the batch',
    closed: (at: string) => `closed ${at}`,
    changed: (n: number) =>
      n === 1
        ? '1 record came or was corrected after the signature'
        : `${String(n)} records came or were corrected after the signature`,
    sign: 'Sign',
    meaning: 'What your signature means',
    reviewed: 'reviewed: I read the whole record',
    approved: 'approved: I read it and accept it',
    statement: 'Statement',
    statementUsual: 'I have read the records of this batch and the verdicts on them.',
    password: 'Your password, once more',
    pin: 'Your PIN, once more',
    passwordHelp:
      'Proves that it is you. Left out, the review is recorded with this device’s token and shown as signed without proof.',
    signed: 'Signed.',
    recorded: 'Recorded without proof of who signed.',
    covers: (size: number) => `Covers the log as it is before you: ${String(size)} entries.`,
    noReception: 'Signing needs reception. Nothing was signed.',
  },
  {
    title: 'Por revisar',
    intro:
      'Tés cerrados que nadie ha firmado desde su último registro o corrección. Lea el registro, conteste lo que quedó fuera y firme.',
    none: 'Nada espera firma.',
    open: 'Leer el té',
    closed: (at) => `cerrado ${at}`,
    changed: (n) =>
      n === 1
        ? '1 registro llegó o se corrigió después de la firma'
        : `${String(n)} registros llegaron o se corrigieron después de la firma`,
    sign: 'Firmar',
    meaning: 'Qué significa su firma',
    reviewed: 'revisado: leí todo el registro',
    approved: 'aprobado: lo leí y lo acepto',
    statement: 'Declaración',
    statementUsual: 'Leí los registros de este té y los veredictos sobre ellos.',
    password: 'Su contraseña, otra vez',
    pin: 'Su PIN, otra vez',
    passwordHelp:
      'Prueba que es usted. Si falta, la revisión se anota con el código de este equipo y se muestra como firmada sin prueba.',
    signed: 'Firmado.',
    recorded: 'Anotado sin prueba de quién firmó.',
    covers: (size) => `Cubre el libro como lo tiene delante: ${String(size)} registros.`,
    noReception: 'Para firmar hace falta señal. No se firmó nada.',
  },
);
