import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { parseDraft } from '@furrowmark/domain';
import { parse, simpleTraverse } from '@typescript-eslint/typescript-estree';
import { z } from 'zod';
import { all, told } from './told.ts';

const root = join(import.meta.dirname, '../../../..');
const inFolder = (folder: string, name: RegExp): string[] =>
  readdirSync(join(root, folder))
    .filter((each) => name.test(each) && !each.endsWith('.test.ts'))
    .map((each) => `${folder}/${each}`);
/** Where refusals are made that a person meets: coming in, at the tank, in a register, a table or a plan. */
const sources = [
  ...inFolder('libs/domain/src/records', /^(?!describe|catalogue|idsIn)\w+\.ts$/),
  ...inFolder('libs/domain/src/calc', /^(plan\w+|pickLots|fieldArea)\.ts$/),
  ...inFolder('libs/reports/src/exchange/incoming', /\.ts$/),
  'apps/api/src/views/stock.ts',
  'apps/api/src/views/plan-facts.ts',
  'apps/api/src/append/permit.ts',
  'apps/api/src/append/decide.ts',
  'apps/api/src/controllers/plan.controller.ts',
  ...inFolder('apps/api/src/access', /\.ts$/),
  ...inFolder('apps/api/src/granting', /\.ts$/),
  'apps/api/src/signing/reviews.ts',
  ...inFolder('apps/api/src/controllers', /^(?!health|problems)[\w-]+\.ts$/),
  ...inFolder('apps/api/src/append', /\.ts$/),
  ...inFolder('apps/api/src/views', /\.ts$/),
  ...inFolder('apps/api/src/documents', /\.ts$/),
  ...inFolder('apps/api/src/reports', /\.ts$/),
  ...inFolder('apps/api/src/report-jobs', /\.ts$/),
  ...inFolder('apps/api/src/exchange', /\.ts$/),
  'apps/api/src/alerts/choices.ts',
  ...inFolder('apps/api/src/http', /^(?:parse|problem|problem-filter)\.ts$/),
  ...inFolder('apps/api/src/archive', /^(?:examined|imports|key-change|received)\.ts$/),
  'libs/reports/src/reports/kind.ts',
];
/** Put together from two, and told below; met by whoever writes a key, a note or an archive, not by who reads one. */
const notOfLogs =
  /^entry a text says it was recorded a text$|^a text, |^— |must end in a line feed|seed has 32 bytes|not fit an archive|bytes, not/;
/** Where it is said what is wrong with a log, as parts of sentences: any text of four words or more. */
const ofLogs = inFolder(
  'libs/log/src',
  /^(?:verify-log|compare-log|read-log|envelope|checkpoint|note|key|tar)\.ts$/,
).flatMap((source) =>
  literalsOf(source)
    .filter(
      (text) => /(?: \S+){3}/.test(text) && /[a-z]{4}/.test(text.replaceAll('a text', '')) && !notOfLogs.test(text),
    )
    .map((text) => [source, text] as const),
);
/** How a message that follows a member or a column begins; a sentence of its own ends with a full stop. */
const message =
  /^(?:(?:is|was|must|has|lies|holds|stands|does|changes|names|repeats|says|and) |“.*” (?:is|may|has|does) )/;
/** Not told: titles of problems, and what is said beside a result. */
const notTold = new Set([
  'The area on the ellipsoid: no slope, and no better than the positions (a phone is good to some metres).',
  // Met by programs only.
  'Send the token that GET /api/v1/session gives in the header X-CSRF-Token.',
  // Put together from two; told below.
  'The a text a text.',
  'Your password a text.',
  '“a text” is no numbera text',
]);

/** The texts of a source; `a text` fills what a template fills in. */
function literalsOf(source: string): readonly string[] {
  const found: string[] = [];
  simpleTraverse(parse(readFileSync(join(root, source), 'utf8')), {
    enter(node) {
      if (node.type === 'Literal' && typeof node.value === 'string') found.push(node.value);
      if (node.type === 'TemplateLiteral') found.push(node.quasis.map(({ value }) => value.cooked).join('a text'));
    },
  });
  return found;
}

/** Those that tell somebody something. */
function textsOf(source: string): readonly string[] {
  return literalsOf(source).filter(
    (text) => text.split(' ').length >= 3 && (message.test(text) || /^[A-Z“].*[.?]$/.test(text)) && !notTold.has(text),
  );
}

describe('refusals in Spanish', () => {
  it.each(ofLogs)('%s: %s', (_, text) => {
    expect(told(text, 'es')).toMatchObject({ language: 'es' });
    // In a list of what is wrong with an archive, each ends with a full stop.
    expect(told(`${text}.`, 'es')).toEqual({ text: `${told(text, 'es').text}.`, language: 'es' });
  });

  it.each(sources.flatMap((source) => textsOf(source).map((text) => [source, text] as const)))('%s: %s', (_, text) => {
    expect(told(text, 'es')).toMatchObject({ language: 'es' });
  });

  it('fill in the same as in English, and have no English left in them', () => {
    const slots = (text: string): string[] => [...text.matchAll(/\{[^}]+\}/g)].map(([each]) => each).sort();
    for (const [en, es] of all) {
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

  it('of coming in are told whole: the password, the PIN, the name, what a link reads', () => {
    for (const [en, es] of [
      [
        'The password must have at least 15 characters: four or five words in a row will do.',
        'La contraseña tiene que llevar al menos 15 letras; bastan cuatro o cinco palabras seguidas.',
      ],
      [
        'The PIN must not be one digit repeated or digits in a row.',
        'El PIN no puede ser una cifra repetida ni cifras seguidas.',
      ],
      ['The login must have 3 to 200 characters.', 'El nombre para entrar tiene que llevar de 3 a 200 letras.'],
      [
        'It was wrong too often. Wait 4 min, then try again.',
        'Se escribió mal demasiadas veces. Espere 4 min y pruebe otra vez.',
      ],
      [
        'This link reads from 2026-01-01 on. Ask the operation for one that reaches further.',
        'Este enlace lee desde 2026-01-01. Pida a la finca uno que llegue más lejos.',
      ],
      [
        'Your password is needed to sign (on a shared phone where you are signed in: your PIN).',
        'Para firmar hace falta su contraseña (en un teléfono compartido donde entró, su PIN).',
      ],
    ] as const)
      expect([en, told(en, 'es')]).toEqual([en, { text: es, language: 'es' }]);
  });

  it('of a log put together from two, and of an archive that is taken in', () => {
    const time = '2026-06-03T12:00:00.000Z';
    for (const [en, es] of [
      [
        `entry 7 says it was recorded ${time}, which is yet to come.`,
        `la entrada 7 dice que se anotó ${time}, que todavía no llega.`,
      ],
      [
        `entry 7 says it was recorded ${time}, but checkpoints/12, seen ${time}, has it already: a clock was ahead`,
        `la entrada 7 dice que se anotó ${time}, pero el punto de control 12, visto ${time}, ya la tiene; un reloj estaba adelantado`,
      ],
      [
        "the archive's checkpoint does not count: no signature is by a trusted key.",
        'el punto de control del archivo no cuenta: ninguna firma es de una clave de confianza.',
      ],
    ] as const)
      expect([en, told(en, 'es')]).toEqual([en, { text: es, language: 'es' }]);
    const fork =
      'checkpoint and checkpoints/12 are both signed by the log, for the same 12 entries, with different roots (0a… and 0b…): the log was shown in two versions. Keep both: together they prove it';
    for (const text of [fork, `${fork}.`]) expect(told(text, 'es').language).toBe('es');
  });

  it('of a body that does not fit, as the schema’s library says it', () => {
    const body = z.object({ name: z.string().min(2).max(3), days: z.number().int().min(1).max(9), to: z.email() });
    for (const wrong of [
      { name: 'a', days: 0, to: 'x' },
      { name: 'abcd', days: 10, to: 'x' },
      { name: 'ab', days: 1.5, to: 'a@b.co' },
      { name: 'ab', days: NaN, to: 'a@b.co' },
    ])
      for (const { message: said } of body.safeParse(wrong).error?.issues ?? [])
        expect([said, told(said, 'es').language]).toEqual([said, 'es']);
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
