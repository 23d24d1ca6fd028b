import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { parseDraft } from '@furrowmark/domain';
import { parse, simpleTraverse } from '@typescript-eslint/typescript-estree';
import { planSentences } from './plan.ts';
import { recordSentences } from './records.ts';
import { tableSentences } from './tables.ts';
import { told } from './told.ts';

const root = join(import.meta.dirname, '../../../..');
const inFolder = (folder: string, name: RegExp): string[] =>
  readdirSync(join(root, folder))
    .filter((each) => name.test(each) && !each.endsWith('.test.ts'))
    .map((each) => `${folder}/${each}`);
/** Where refusals are made that a person meets at the tank, in a register, a table or a plan. */
const sources = [
  ...inFolder('libs/domain/src/records', /^(?!describe|catalogue|idsIn)\w+\.ts$/),
  ...inFolder('libs/domain/src/calc', /^(plan\w+|pickLots|fieldArea)\.ts$/),
  ...inFolder('libs/reports/src/exchange/incoming', /\.ts$/),
  'apps/api/src/views/stock.ts',
  'apps/api/src/views/plan-facts.ts',
  'apps/api/src/append/permit.ts',
  'apps/api/src/append/decide.ts',
  'apps/api/src/controllers/plan.controller.ts',
];
/** How a message that follows a member or a column begins; a sentence of its own ends with a full stop. */
const message = /^(?:(?:is|must|has|lies|holds|stands|does|changes|names|repeats|says|and) |“.*” (?:is|may|has|does) )/;
/** Not told: titles of problems, and what is said beside a result. */
const notTold = new Set([
  'The area on the ellipsoid: no slope, and no better than the positions (a phone is good to some metres).',
  // Put together from two; told below.
  '“a text” is no numbera text',
]);

/** The texts of a source that tell somebody something; `a text` fills what a template fills in. */
function textsOf(source: string): readonly string[] {
  const found: string[] = [];
  simpleTraverse(parse(readFileSync(join(root, source), 'utf8')), {
    enter(node) {
      if (node.type === 'Literal' && typeof node.value === 'string') found.push(node.value);
      if (node.type === 'TemplateLiteral') found.push(node.quasis.map(({ value }) => value.cooked).join('a text'));
    },
  });
  return found.filter(
    (text) => text.split(' ').length >= 3 && (message.test(text) || /^[A-Z“].*[.?]$/.test(text)) && !notTold.has(text),
  );
}

describe('refusals in Spanish', () => {
  it.each(sources.flatMap((source) => textsOf(source).map((text) => [source, text] as const)))('%s: %s', (_, text) => {
    expect(told(text, 'es')).toMatchObject({ language: 'es' });
  });

  it('fill in the same as in English, and have no English left in them', () => {
    const slots = (text: string): string[] => [...text.matchAll(/\{[^}]+\}/g)].map(([each]) => each).sort();
    for (const [en, es] of [...recordSentences, ...planSentences, ...tableSentences]) {
      expect([en, slots(es)]).toEqual([en, slots(en)]);
      expect(es).not.toMatch(/\b(?:the|must|is|are|not|of|and|with|which|write)\b/);
    }
  });

  it('name the member as people do', () => {
    const now = Date.parse('2026-06-03T12:00:00Z');
    const id = '01976f00-0000-7000-8000-0000000000f1';
    const data = { batchId: id, sourceId: id, volume: { value: -5, unit: '[gal_us]' } };
    const draft = { id, type: 'batch.filled', version: 1, occurredAt: '2026-06-03T06:10:00Z', data };
    const parsed = parseDraft(draft, { now });
    expect(parsed.ok ? '' : told(parsed.problem.detail, 'es').text).toBe(
      '“volumen › valor”: no puede ser negativo; escriba la cantidad sin signo.',
    );
    const ahead = parseDraft(
      { ...draft, occurredAt: '2026-06-09T06:10:00Z', data: { ...data, volume: { value: 5, unit: 'L' } } },
      { now },
    );
    expect(ahead.ok ? '' : told(ahead.problem.detail, 'es').text).toBe(
      '“cuándo”: está más de 24 horas adelante (2026-06-09T06:10:00Z); corrija la fecha, o el reloj del aparato.',
    );
  });

  it('of several sentences are told one by one; what is not known stays as it was', () => {
    expect(
      told(
        '120 gal of 400 gal cannot be brewed and sprayed by 2026-06-03 11:00 CDT (UTC-05:00). The sprayer puts out at most 300 gal in this window. It would fit with a further vessel of 120 gal working volume, or at 70 % of the rate.',
        'es',
      ).text,
    ).toBe(
      'De 400 gal hay 120 gal que no se alcanzan a preparar y aplicar hasta 2026-06-03 11:00 CDT (UTC-05:00). El equipo aplica a lo más 300 gal en esta ventana. Alcanzaría con otro tanque de 120 gal de volumen de trabajo, o al 70 % de la dosis.',
    );
    for (const cell of [
      '“7.x” is no number',
      '“7,4” is no number (decimals are taken to follow “.”; say so if they follow “,”)',
    ])
      expect(told(cell, 'es').text).toMatch(/^“7.+” no es un número/);
    const other = 'Something else of a later version.';
    expect(told(other, 'es')).toEqual({ text: other, language: 'en' });
    expect(told('This cannot be planned.', 'en')).toEqual({ text: 'This cannot be planned.', language: 'en' });
  });
});
