import { describe, expect, it } from '@jest/globals';
import { renderPdf } from '@furrowmark/pdf';
import { everyBlock, longTable, sampleReport } from './pdf/sample-content.ts';
import { infoOf, objectsOf, run, withPdf } from './pdf/programs.ts';

const createdAt = new Date('2026-11-02T15:15:00Z');
const everything = await renderPdf(sampleReport(everyBlock), { paper: 'letter', createdAt });
const objects = objectsOf(everything);

describe('the file of a report', () => {
  it('is read without complaint by an independent reader (qpdf)', () => {
    const said = withPdf(everything, (path) => run('qpdf', '--check', path));
    expect(said).toContain('No syntax or stream encoding errors found');
  });

  it('is a tagged document with its title, language and paper', () => {
    const info = infoOf(everything);
    expect(info).toMatch(/^Title: +Batch record T-14 · Quillfen Growers$/m);
    expect(info).toMatch(/^Tagged: +yes$/m);
    expect(info).toMatch(/^Page size: +612 x 792 pts \(letter\)$/m);
    expect(objects).toContain('"/Lang": "u:en"');
    expect(objects).toContain('"/DisplayDocTitle": true');
  });

  it('says that it is PDF/A-3b, with an output intent', () => {
    const metadata = withPdf(everything, (path) => run('pdfinfo', '-meta', path));
    expect(metadata).toContain('<pdfaid:part>3</pdfaid:part>');
    expect(metadata).toContain('<pdfaid:conformance>B</pdfaid:conformance>');
    expect(objects).toContain('"/S": "/GTS_PDFA1"');
  });

  it('embeds every face it uses, each with its map to Unicode', () => {
    const rows = withPdf(everything, (path) => run('pdffonts', path))
      .trim()
      .split('\n')
      .slice(2);
    expect(rows.length).toBeGreaterThanOrEqual(3);
    // Columns: name, type, encoding, emb, sub, uni, object.
    for (const row of rows) expect(row).toMatch(/SourceSans3\S+ +CID TrueType +Identity-H +yes +yes +yes/);
  });

  it('has the same bytes for the same content and date, other bytes for another date', async () => {
    const again = await renderPdf(sampleReport(everyBlock), { paper: 'letter', createdAt });
    expect(Buffer.compare(everything, again)).toBe(0);
    const later = await renderPdf(sampleReport(everyBlock), { paper: 'letter', createdAt: new Date(0) });
    expect(Buffer.compare(everything, later)).not.toBe(0);
  });

  it('keeps its metadata well-formed for a farm called "Root & Branch <West>"', async () => {
    const content = sampleReport([longTable(1)]);
    const named = { ...content, operation: { ...content.operation, name: 'Root & Branch <West>' } };
    const bytes = await renderPdf(named, { paper: 'a4', createdAt });
    expect(infoOf(bytes)).toMatch(/^Author: +Root & Branch <West>$/m);
    const metadata = withPdf(bytes, (path) => run('pdfinfo', '-meta', path));
    expect(metadata).toContain('<rdf:li>Root &amp; Branch &lt;West&gt;</rdf:li>');
  });

  it('has a bookmark for each heading', () => {
    const outline = withPdf(everything, (path) => run('qpdf', '--json=2', '--json-key=outlines', path));
    const titles = [...outline.matchAll(/"title": "([^"]*)"/g)].map(([, title]) => title);
    expect(titles.toSorted()).toEqual(
      everyBlock.flatMap((block) => (block.kind === 'heading' ? [block.text] : [])).toSorted(),
    );
  });

  it('links a batch in a table to its heading', () => {
    const named = /"\/D": "u:(d\d{7})"/.exec(objects)?.[1];
    expect(named).toBeDefined();
    expect(objects).toContain(`"u:${named ?? ''}",`);
  });

  it('is A4 where A4 is asked for, and lies down for a table that would cut its words', async () => {
    const upright = await renderPdf(sampleReport([longTable(3)]), { paper: 'a4', createdAt });
    expect(infoOf(upright)).toMatch(/^Page size: +595.28 x 841.89 pts \(A4\)$/m);
    const narrow = longTable(2);
    const wide = {
      ...narrow,
      columns: [0, 1, 2].flatMap((n) => narrow.columns.map((column) => ({ ...column, key: `${column.key}${n}` }))),
      rows: narrow.rows.map((row) => [...row, ...row, ...row]),
      total: [],
    };
    expect(infoOf(await renderPdf(sampleReport([wide]), { paper: 'a4', createdAt }))).toMatch(
      /^Page size: +841.89 x 595.28 pts \(A4\)$/m,
    );
  });
});
