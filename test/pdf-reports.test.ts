import { describe, expect, it } from '@jest/globals';
import { renderPdf } from '@furrowmark/pdf';
import { jsonOf, reportKinds, tablesOf } from '@furrowmark/reports';
import { contentOf, createdAt } from './pdf/corpus.ts';
import { attachmentsOf, drawnTextOf, infoOf, run, solid, textOf, withPdf } from './pdf/programs.ts';

describe.each(
  reportKinds.map(({ kind }, index) => ({ kind, language: index % 2 === 0 ? ('en' as const) : ('es' as const) })),
)('the PDF of $kind in $language', ({ kind, language }) => {
  const content = contentOf(kind, language);
  const rendered = renderPdf(content, { paper: language === 'en' ? 'letter' : 'a4', createdAt });

  it('is sound, tagged, and in its language', async () => {
    const bytes = await rendered;
    expect(withPdf(bytes, (path) => run('qpdf', '--check', path))).toContain('No syntax or stream encoding errors');
    expect(infoOf(bytes)).toMatch(/^Tagged: +yes$/m);
    expect(textOf(bytes)).toContain(language === 'en' ? 'page 1 of' : 'página 1 de');
  });

  it('prints every cell of every table', async () => {
    const drawn = solid(drawnTextOf(await rendered));
    for (const { name, rows } of tablesOf(content)) {
      // On paper each note of a verdict has a line of its own.
      const parts = (text: string): string[] => (name.startsWith('verdicts') ? text.split('; ') : [text]);
      for (const { text } of rows.flat()) for (const part of parts(text)) expect(drawn).toContain(solid(part));
    }
    expect(drawn).not.toContain('[U+');
  });

  it('carries its data', async () => {
    const attached = attachmentsOf(await rendered);
    expect(JSON.parse(attached.get(`${kind}.json`) ?? '')).toEqual(jsonOf(content));
    expect(attached.size).toBe(tablesOf(content).length + 1);
  });
});
