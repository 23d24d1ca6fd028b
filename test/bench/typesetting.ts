import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pdfStream } from '@furrowmark/pdf';
import PDFDocument from 'pdfkit';
import type { ReportContent } from '@furrowmark/reports';

// One document in a process of its own, so that its memory can be told from everybody else's: `ours`, `bare` or `tagged` (the bare
// library with the tags that ours has, a table's, a row's, a cell's), and rows.
const [side = 'ours', count = '1000'] = process.argv.slice(2);
const cells = (n: number): string[] => [
  `2026-06-${String((n % 28) + 1).padStart(2, '0')} 06:10`,
  `T-${n}`,
  `${(6 + (n % 20) / 10).toFixed(1)} mg/L`,
  'Dissolved oxygen in the tank, meter DO-1',
];
// The peer has its typesetter at hand as well.
if (side === 'ours') await import('../../libs/pdf/src/render.ts');
const all = Array.from({ length: Number(count) }, (_, n) => cells(n));
const { rss: before } = process.memoryUsage();
const start = performance.now();
let [pages, bytes] = [0, 0];
const pageObject = '/Type /Page\n';
if (side === 'ours') {
  const content: ReportContent = {
    ...{ kind: 'season-applications', title: 'Readings', language: 'en', preparedAt: '1 July 2026, 08:00 CDT' },
    operation: { name: 'Quillfen Growers', timeZone: 'America/Chicago' },
    log: { size: all.length, root: Buffer.alloc(32).toString('base64') },
    blocks: [
      {
        ...{ kind: 'table', name: 'readings', caption: 'Readings' },
        columns: ['When', 'Batch', 'Reading', 'What'].map((label) => ({ key: label, label, type: 'text' as const })),
        rows: all.map((row) => row.map((text) => ({ text }))),
      },
    ],
  };
  // The data attachments are part of the product but not of the peer's work: the archival kind without them.
  // Pages are counted as they pass, not kept: what the report weighs must not be in its memory.
  let carried = '';
  for await (const chunk of pdfStream(content, { paper: 'letter', createdAt: new Date(0), conformance: 'PDF/A-1b' })) {
    bytes += chunk.length;
    const passing = carried + Buffer.from(chunk).toString('latin1');
    pages += passing.split(pageObject).length - 1;
    carried = passing.slice(-(pageObject.length - 1));
  }
} else {
  const require = createRequire(new URL('../../libs/pdf/src/fonts.ts', import.meta.url));
  const face = readFileSync(require.resolve('@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf'));
  const doc = new PDFDocument({
    size: 'LETTER',
    margin: 54,
    ...(side === 'tagged' ? { tagged: true, lang: 'en' } : {}),
  });
  doc.on('data', (chunk: Buffer) => (bytes += chunk.length));
  doc.on('pageAdded', () => (pages += 1));
  doc.registerFont('regular', face);
  doc.font('regular').fontSize(9);
  pages = 1;
  let y = 54;
  const table = side === 'tagged' ? doc.struct('Table') : null;
  if (table !== null) doc.addStructure(table);
  for (const row of all) {
    if (y > 720) {
      doc.addPage();
      y = 54;
    }
    const line = table === null ? null : doc.struct('TR');
    if (line !== null) table?.add(line);
    row.forEach((text, i) => {
      const cell = (): unknown => doc.text(text, 54 + i * 125, y, { width: 120, height: 14 });
      if (line === null) cell();
      else line.add(doc.struct('TD', {}, () => void cell()));
    });
    line?.end();
    y += 16;
  }
  table?.end();
  const ended = new Promise((done) => doc.on('end', done));
  doc.end();
  await ended;
}
const ms = performance.now() - start;
const most = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ ms, pages, bytes, most, grown: most - before / 2 ** 20 }));
