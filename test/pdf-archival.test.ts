import { describe, expect, it } from '@jest/globals';
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { renderPdf } from '@furrowmark/pdf';
import { everyBlock, longTable, sampleReport } from './pdf/sample-content.ts';
import { withPdf } from './pdf/programs.ts';

const jars = [
  'preflight',
  'pdfbox2',
  'fontbox2',
  'xmpbox',
  'commons-io',
  'commons-logging',
  'jaxb-api',
  'javax.activation',
];

/** What Apache PDFBox's preflight, a validator of PDF/A-1b, says of the file. */
function preflight(bytes: Uint8Array): string {
  const paths = jars.map((name) => `/usr/share/java/${name}.jar`);
  const missing = paths.filter((path) => !existsSync(path));
  if (missing.length > 0) {
    throw new Error(
      `${missing.join(', ')} not found: apt-get install default-jre-headless libpdfbox2-java libcommons-io-java libactivation-java libjaxb-api-java`,
    );
  }
  return withPdf(bytes, (path) => {
    const validator = 'org.apache.pdfbox.preflight.Validator_A1b';
    const { error, stdout } = spawnSync('java', ['-cp', paths.join(':'), validator, path], { encoding: 'utf8' });
    if (error !== undefined)
      throw new Error('java did not run: apt-get install default-jre-headless', { cause: error });
    return stdout;
  });
}

const createdAt = new Date('2026-11-02T15:15:00Z');

// PDF/A-3 differs from PDF/A-1 in what it allows besides (files, newer features); no validator of it is in reach. The
// pages are the same, so faces, colours, metadata, outline and structure are checked in the older part.
describe('an archival report, by an outside validator', () => {
  it('is a valid PDF/A-1b file when it carries no attachments', async () => {
    const bytes = await renderPdf(sampleReport(everyBlock), { paper: 'letter', createdAt, conformance: 'PDF/A-1b' });
    expect(preflight(bytes)).toContain('is a valid PDF/A-1b file');
  });

  it('is one over many pages, in Spanish, with signs that no face has', async () => {
    const blocks = [longTable(120), { kind: 'paragraph' as const, text: 'Composta 漢 ñ' }];
    const report = sampleReport(blocks, { language: 'es', title: 'Registro & más' });
    const bytes = await renderPdf(report, { paper: 'a4', createdAt, conformance: 'PDF/A-1b' });
    expect(preflight(bytes)).toContain('is a valid PDF/A-1b file');
  });

  it('the validator does see a fault: a file that is none', () => {
    expect(preflight(Buffer.from('%PDF-1.4\n%%EOF\n'))).not.toContain('is a valid PDF/A-1b file');
  });
});
