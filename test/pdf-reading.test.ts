import { describe, expect, it } from '@jest/globals';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { renderPdf } from '@furrowmark/pdf';
import { csvOf, jsonOf, tablesOf, type Block } from '@furrowmark/reports';
import { everyBlock, longTable, sampleReport } from './pdf/sample-content.ts';
import { attachmentsOf, flat, objectsOf, run, solid, structureOf, textOf, withPdf } from './pdf/programs.ts';

const createdAt = new Date('2026-11-02T15:15:00Z');
const report = sampleReport(everyBlock);
const everything = await renderPdf(report, { paper: 'letter', createdAt });
const long = await renderPdf(sampleReport([longTable(48)]), { paper: 'letter', createdAt });
const longStructure = structureOf(long);

describe('what is printed', () => {
  const printed = solid(textOf(everything));

  it('has every text of every block: headings, notes, facts, cells, verdicts, labels', () => {
    for (const block of everyBlock) {
      const texts: string[] = [];
      if (block.kind === 'heading' || block.kind === 'paragraph' || block.kind === 'note') texts.push(block.text);
      if (block.kind === 'facts')
        texts.push(...block.items.flatMap(({ term, value, was }) => [term, value, was ?? '']));
      if (block.kind === 'table') texts.push(...block.rows.flat().flatMap(({ text, was }) => [text, was ?? '']));
      if (block.kind === 'verdicts')
        texts.push(...block.items.flatMap((v) => [v.word, v.message, v.figures, v.citation]));
      if (block.kind === 'batchRibbon') texts.push(...block.lanes.map(({ label }) => label));
      if (block.kind === 'traceFlow')
        texts.push(...block.columns.flatMap(({ nodes }) => nodes.map(({ label }) => label)));
      for (const text of texts) expect(printed).toContain(solid(text));
    }
  });

  it('has the signs of limits, degrees and names as themselves', () => {
    for (const sign of ['≥', '≤', '°', 'µ', 'ñ', 'ž', '–', '…', '→', '½']) expect(printed).toContain(sign);
  });

  it('writes a sign that the face lacks as its Unicode number, and says so, never a blank box', async () => {
    const bytes = await renderPdf(sampleReport([{ kind: 'paragraph', text: 'Lot 漢 🌱 \u0007\u202e end' }]), {
      paper: 'letter',
      createdAt,
    });
    const text = flat(textOf(bytes));
    expect(text).toContain('Lot [U+6F22] [U+1F331] [U+0007][U+202E] end');
    expect(text).toContain('printed as their Unicode number');
  });

  it('carries page x of y, the log and its root on each page', () => {
    const pages = textOf(long).split('\f').slice(0, -1);
    expect(pages.length).toBeGreaterThan(1);
    pages.forEach((page, index) => {
      expect(flat(page)).toContain(`page ${index + 1} of ${pages.length}`);
      expect(flat(page)).toContain(`log of 140 records · root ${report.log.root}`);
      expect(flat(page)).toContain('Quillfen Growers · Batch record T-14 · 2026-04-01 – 2026-10-31');
    });
  });

  it('repeats the column heads on each page and keeps every row whole on one', () => {
    const pages = textOf(long).split('\f').slice(0, -1);
    for (const page of pages) expect(flat(page)).toContain('Remark');
    for (let row = 0; row < 48; row += 1) {
      const holding = pages.filter((page) => new RegExp(`\\bT-${row}\\b`).test(page.replaceAll('T-14 ·', '')));
      expect(holding).toHaveLength(1);
      expect(flat(holding[0] ?? '')).toContain(`${row}.5`);
    }
  });

  it('prints a total that is the sum of the lines printed', () => {
    const numbers = [...longStructure.matchAll(/^ *"(\d+\.\d)"$/gm)].map(([, number]) => Number(number));
    const total = numbers.pop();
    expect(numbers).toHaveLength(48);
    expect(total).toBe(numbers.reduce((a, b) => a + b, 0));
  });

  it('gives back its checkpoint to a QR reader, from paper at 200 dots an inch', () => {
    const read = withPdf(everything, (path, folder) => {
      run('pdftoppm', '-r', '200', '-f', '1', '-l', '1', '-png', path, join(folder, 'page'));
      return run('zbarimg', '--quiet', '--raw', join(folder, 'page-1.png'));
    });
    expect(read.trimEnd()).toBe((report.log.checkpoint ?? '').trimEnd());
  });
});

describe('what a screen reader is told', () => {
  const structure = structureOf(everything);

  it('the order and kind of everything, from the title to the signature line', () => {
    const order = [
      'H1 (block)',
      'Note',
      'L (block)',
      'LI (block)',
      'H2 (block)',
      'Figure',
      'H3 (block)',
      'Table',
      'Caption',
    ];
    let at = 0;
    for (const kind of order) {
      const found = structure.indexOf(kind, at);
      expect({ kind, found: found >= at }).toEqual({ kind, found: true });
      at = found;
    }
    expect(structure).toMatch(/THead[^]*TR[^]*TH[^]*"Time"[^]*TBody[^]*TD/);
  });

  it('column heads once, with their scope, however many pages the table runs over', () => {
    expect(longStructure.match(/^ *TH\b/gm)).toHaveLength(6);
    expect(objectsOf(long).match(/"\/Scope": "\/Column"/g)).toHaveLength(6);
  });

  it('what each picture and each verdict shape shows', () => {
    const alternatives = [...objectsOf(everything).matchAll(/"\/Alt": "u:([^"]*)"/g)].map(([, text]) => text);
    for (const block of everyBlock) {
      if ('description' in block) expect(alternatives).toContain(block.description);
      if (block.kind === 'verdicts') for (const { word } of block.items) expect(alternatives).toContain(word);
    }
  });

  it('an original behind an amendment, after the value that holds', () => {
    expect(flat(structure)).toContain('"7 lb" Span (inline) "was 0.5 green bucket, level"');
  });

  it('no two words run together where a line breaks', async () => {
    const text = Array.from({ length: 80 }, (_, index) => `word${index}`).join(' ');
    const bytes = await renderPdf(sampleReport([{ kind: 'paragraph', text }]), { paper: 'letter', createdAt });
    expect(structureOf(bytes)).toContain(`"${text}"`);
  });
});

describe('the data in the file', () => {
  const attached = attachmentsOf(everything);

  it('is the whole report as JSON and each table as CSV', () => {
    expect([...attached.keys()].toSorted()).toEqual([
      ...['batch-record.everything.csv', 'batch-record.json', 'batch-record.verdicts.csv'],
    ]);
    expect(JSON.parse(attached.get('batch-record.json') ?? '')).toEqual(jsonOf(report));
    const tables = tablesOf(report);
    expect(tables.map(({ name }) => name).toSorted()).toEqual(['everything', 'verdicts']);
    for (const table of tables) expect(attached.get(`batch-record.${table.name}.csv`)).toBe(csvOf(table));
  });

  it('says how it relates to the pages: the JSON is their source, the CSV their data', () => {
    const objects = objectsOf(everything);
    expect(objects.match(/"\/AFRelationship": "\/Source"/g)).toHaveLength(1);
    expect(objects.match(/"\/AFRelationship": "\/Data"/g)).toHaveLength(2);
    expect(objects).toContain('"/Subtype": "/text/csv"');
  });
});

describe('the faces', () => {
  it('come with their licence', () => {
    const licence = readFileSync(
      join(import.meta.dirname, '../node_modules/@expo-google-fonts/source-sans-3/LICENSE_FONT'),
    );
    expect(licence.toString()).toContain('SIL OPEN FONT LICENSE');
  });
});

describe('a report of several parts, on paper', () => {
  const parts = ['Input list', 'Tank calendar', 'Batch record T-14'];
  const bytes = renderPdf(
    sampleReport([
      { kind: 'heading', level: 1, text: 'What is in it' },
      {
        kind: 'table',
        name: 'contents',
        caption: '',
        columns: [{ key: 'part', label: 'Part', type: 'text' }],
        rows: parts.map((text) => [{ text, to: text }]),
      },
      ...parts.flatMap((text): Block[] => [
        { kind: 'pageBreak' },
        { kind: 'heading', level: 1, text, anchor: text },
        longTable(48),
      ]),
    ]),
    { paper: 'letter', createdAt },
  );

  it('tells in its list of contents on which page each part begins', async () => {
    const pages = textOf(await bytes).split('\f');
    const told = parts.map((part) => new RegExp(`\\b${part} (\\d+)\\b`).exec(flat(pages[0] ?? ''))?.[1]);
    // Its heading stands on a line of its own; the first page only lists it.
    const begins = (page: string, part: string): boolean => page.split('\n').includes(part);
    const begun = parts.map((part) => pages.findIndex((page, index) => index > 0 && begins(page, part)) + 1);
    expect(new Set(begun).size).toBe(parts.length);
    expect(told).toEqual(begun.map(String));
  });

  it('has the part at the head of each of its pages, so that one taken out can be put back', async () => {
    const pages = textOf(await bytes)
      .split('\f')
      .slice(1, -1);
    const heads = pages.map((page) => parts.find((part) => flat(page).includes(`Batch record T-14 · ${part} ·`)));
    expect(new Set(heads)).toEqual(new Set(parts));
    expect(heads).toEqual(heads.toSorted((a, b) => parts.indexOf(a ?? '') - parts.indexOf(b ?? '')));
    expect(pages.length).toBeGreaterThan(parts.length);
  });
});

describe('what belongs together on paper', () => {
  const lines = (count: number): Block[] =>
    Array.from({ length: count }, () => ({ kind: 'paragraph', text: 'A line above.' }));
  const small = (rows: number): Block => ({
    ...{ kind: 'table', name: 'account', caption: '' },
    columns: [{ key: 'what', label: 'What', type: 'text' }],
    rows: Array.from({ length: rows }, (_, row) => [{ text: `row ${row + 1}` }]),
  });
  const pagesOf = async (blocks: readonly Block[]): Promise<string[]> =>
    textOf(await renderPdf(sampleReport(blocks), { paper: 'letter', createdAt })).split('\f');

  it('a small table is not parted, wherever the page ends', async () => {
    const starts = new Set<number>();
    for (let above = 14; above <= 30; above += 2) {
      const pages = await pagesOf([...lines(above), small(7)]);
      const [first, last] = ['row 1', 'row 7'].map((text) => pages.findIndex((page) => page.includes(text)));
      expect([above, first]).toEqual([above, last]);
      starts.add(first ?? -1);
    }
    // The page ended somewhere on the way.
    expect(starts.size).toBeGreaterThan(1);
  }, 60_000);

  it('lines to sign on have a row of the table above them on their page', async () => {
    const sign: Block = { kind: 'blank', label: 'Signed by', lines: 1 };
    for (let rows = 20; rows <= 34; rows += 1) {
      const pages = await pagesOf([small(rows), sign]);
      const page = pages.find((text) => text.includes('Signed by'));
      expect(page).toContain(`row ${rows}`);
    }
  }, 60_000);

  it('the words below the code to scan end above what follows, however long they are in a language', async () => {
    for (const language of ['en', 'es'] as const) {
      const content = { ...sampleReport([{ kind: 'paragraph', text: 'Debajo.' }]), language, notice: '' };
      const places = withPdf(await renderPdf(content, { paper: 'letter', createdAt }), (path) =>
        run('pdftotext', '-bbox', path, '-'),
      );
      const place = (word: string, side: 'yMin' | 'yMax'): number =>
        Number(new RegExp(`${side}="([\\d.]+)"[^>]*>${word}<`).exec(places)?.[1]);
      const last = { en: 'rewritten\\.', es: 'reescribió\\.' }[language];
      // The rule of the day, with room on both sides of it, lies between.
      expect(place('Debajo\\.', 'yMin') - place(last, 'yMax')).toBeGreaterThan(20);
    }
  });

  it('a line to write on by hand is eight millimetres high', async () => {
    const blank = { ...small(6), rows: Array.from({ length: 6 }, () => [{ text: ' ' }]) } as const;
    const places = withPdf(
      await renderPdf(sampleReport([blank, { kind: 'paragraph', text: 'Debajo.' }]), { paper: 'letter', createdAt }),
      (path) => run('pdftotext', '-bbox', path, '-'),
    );
    const top = (word: string): number => Number(new RegExp(`yMin="([\\d.]+)"[^>]*>${word}<`).exec(places)?.[1]);
    // 72 points to the inch of 25.4 mm.
    expect(top('Debajo\\.') - top('What')).toBeGreaterThan((6 * 8 * 72) / 25.4);
  });
});
