import { catalogue } from './catalogue.ts';
import { packs } from './engine/packs.ts';
import type { Rule } from './engine/rule.ts';
import { wordFor } from './engine/words.ts';
import type { Basis, Verdict } from './outcome.ts';

const basisWords: Record<Exclude<Basis, 'ownPlan'>, string> = {
  regulation: 'regulation',
  certifier: "the certifier's word",
  guideline: 'guideline, advisory',
  practice: "common practice: the operation's own limit",
};

const kindWords = (rule: Rule): string => rule.about.join(', ');

function parameterTable(rule: Rule): string {
  if (rule.parameters.size === 0) return 'No parameters.\n';
  const rows = [...rule.parameters].map(
    ([name, { byDefault, unit, description, regulation }]) =>
      `| \`${name}\` | ${byDefault} | ${unit ?? ''} | ${description}${regulation === undefined ? '' : ` The regulation asks for at ${regulation === 'atLeast' ? 'least' : 'most'} this.`} |`,
  );
  return ['| parameter | default | unit (UCUM) | what it is |', '| --- | --- | --- | --- |', ...rows, ''].join('\n');
}

function section(rule: Rule): string {
  const packNames = rule.packs.map((id) => packs.find((pack) => pack.id === id)?.name ?? id);
  return [
    `### ${rule.title}`,
    '',
    `\`${rule.id}\`, revision ${rule.revision} · ${basisWords[rule.basis]} · ${rule.severity}`,
    '',
    rule.reason,
    '',
    `- speaks of: ${kindWords(rule)}`,
    `- rule book chosen at: ${rule.chosenAt}`,
    `- binds with: ${packNames.join('; ')}`,
    `- source: ${rule.citation}`,
    '',
    parameterTable(rule),
  ].join('\n');
}

const verdicts: readonly (readonly [Verdict, string])[] = [
  ['met', 'what the records show is within the limit; the limit itself is allowed'],
  [
    'caution',
    'within the limit, past the advised value, or certainly within the limit and perhaps past the advised value',
  ],
  ['broken', 'past the limit; or something to be done was not done in its time'],
  ['due', 'not decidable yet; with the time by which something is to be done'],
  [
    'unknown',
    'what was recorded cannot tell; the message says what is missing, or between which bounds the clock lies',
  ],
  ['notApplicable', 'the rule has nothing to decide here; the message says why'],
];

/** The rule book as a page for readers, in the catalogue's order. The same text as long as the rules are the same. */
export function rulesDocument(): string {
  const bases: readonly Basis[] = ['regulation', 'certifier', 'guideline', 'ownPlan', 'practice'];
  return [
    '# The rule book',
    '',
    'Written from the rules themselves by `libs/rules/src/document.ts`; a test fails when it is stale. To write it anew:',
    '`WRITE_DOCS=1 node --experimental-vm-modules node_modules/jest/bin/jest.js libs/rules/src/document`.',
    '',
    'The rules report what the records show. They do not certify. Limits that local codes, the certifier or a label set',
    'come first. Pathogens, chlorine and sprayers can hurt people: ask the licensed professional where there is doubt.',
    '',
    '## How a rule speaks',
    '',
    '| outcome | what it says |',
    '| --- | --- |',
    ...verdicts.map(([verdict, words]) => `| \`${verdict}\` | ${words} |`),
    '',
    'What stands behind a limit decides the word for going past it:',
    '',
    '| basis | word |',
    '| --- | --- |',
    ...bases.map((basis) => `| \`${basis}\` | ${wordFor(basis, 'broken')} |`),
    '',
    'A rule rests on `certifier` from an adoption on whose entry names, as `certifierReference`, the reference of a ruling',
    'that is on record. A rule book that asks for less than a regulation is shown as such: the regulation still binds.',
    '`ownPlan` is practice or a guideline that the system plan promises (`inSystemPlan` in an adoption). A regulation stays',
    'one, whatever the plan says of it.',
    '',
    'Times that are not exact make ranges. A limit inside the range gives `unknown`, with the range in words; an advised',
    'value inside the range, with the limit outside, gives `caution`, as it is certain that the limit was kept.',
    '',
    'Limits are those of the rule book in force at the instant that the rule names. Built-in limits hold until the',
    'operation adopts others; an adoption overrides what it names from its effective time on, and the rest stays.',
    '',
    '## Packs',
    '',
    "Which rules bind is the operation's choice of regimes (none named: all); its own practice always binds. Under the",
    'produce rule a farm that is exempt or not covered (`farmStatus`) is not judged by that pack.',
    '',
    ...packs.map(
      (pack) =>
        `- \`${pack.id}\`: ${pack.name} (${catalogue.filter((rule) => rule.packs.includes(pack.id)).length} rules)`,
    ),
    '',
    '## The rules',
    '',
    ...catalogue.map(section),
  ]
    .join('\n')
    .replace(/\n{3,}/g, '\n\n')
    .trimEnd()
    .concat('\n');
}
