import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Where each program that reads PDFs back comes from. A missing one fails the test: a skipped check proves nothing. */
const debianPackage = {
  pdfinfo: 'poppler-utils',
  pdftotext: 'poppler-utils',
  pdffonts: 'poppler-utils',
  pdfdetach: 'poppler-utils',
  pdftoppm: 'poppler-utils',
  qpdf: 'qpdf',
  zbarimg: 'zbar-tools',
} as const;
export type Program = keyof typeof debianPackage;

/** Runs an outside program and gives what it printed. */
export function run(program: Program, ...args: string[]): string {
  const { error, status, stdout, stderr } = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 28 });
  if (error !== undefined) {
    const advice = `${program} is needed to read the PDF back: apt-get install ${debianPackage[program]}`;
    throw new Error(advice, { cause: error });
  }
  if (status !== 0) throw new Error(`${program} left with ${String(status)}: ${stderr}`);
  return stdout;
}

/** Gives the file's path to `read` and removes it afterwards. */
export function withPdf<T>(bytes: Uint8Array, read: (path: string, folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'furrowmark-pdf-'));
  try {
    const path = join(folder, 'report.pdf');
    writeFileSync(path, bytes);
    return read(path, folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export const textOf = (bytes: Uint8Array): string => withPdf(bytes, (path) => run('pdftotext', path, '-'));
/** Text in the order in which it is drawn: a cell's lines follow one another. */
export const drawnTextOf = (bytes: Uint8Array): string => withPdf(bytes, (path) => run('pdftotext', '-raw', path, '-'));
/** Elements with their text. For a few pages only: the program lays a page out again for each element. */
export const structureOf = (bytes: Uint8Array): string =>
  withPdf(bytes, (path) => run('pdfinfo', '-struct-text', path));
export const infoOf = (bytes: Uint8Array): string => withPdf(bytes, (path) => run('pdfinfo', path));

/** The file's objects, as an independent reader sees them. */
export const objectsOf = (bytes: Uint8Array): string =>
  withPdf(bytes, (path) => run('qpdf', '--json=2', '--json-key=qpdf', '--json-stream-data=none', path));

/** Attached files by name. */
export function attachmentsOf(bytes: Uint8Array): ReadonlyMap<string, string> {
  return withPdf(bytes, (path, folder) => {
    run('pdfdetach', '-saveall', '-o', folder, path);
    const names = readdirSync(folder).filter((name) => name !== 'report.pdf');
    return new Map(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
  });
}

/** One run of white space is one space: where a line breaks says nothing about what is printed. */
export const flat = (text: string): string => text.replace(/\s+/g, ' ').trim();
/** No white space at all: a long word that was cut is whole again. */
export const solid = (text: string): string => text.replace(/\s+/g, '');
