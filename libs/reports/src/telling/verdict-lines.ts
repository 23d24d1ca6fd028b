import {
  factsIn,
  figureName,
  figureWord,
  ownWord,
  ruleById,
  sourceIn,
  titleIn,
  type Basis,
  type Figure,
  type Outcome,
  type Verdict,
} from '@furrowmark/rules';
import { localTime } from '../clock.ts';
import type { Block, VerdictLine } from '../content.ts';
import { answersTo } from './answers.ts';
import { brief } from './numbers.ts';
import { unitName, type Telling } from './telling.ts';

const weight: Readonly<Record<Verdict, number>> = {
  broken: 0,
  unknown: 1,
  caution: 2,
  due: 3,
  met: 4,
  notApplicable: 5,
};
const severity: Readonly<Record<Outcome['severity'], number>> = { critical: 0, major: 1, minor: 2, notice: 3 };

/** Worst first, then by severity; otherwise as the rules gave them. */
export const worstFirst = (a: Outcome, b: Outcome): number =>
  weight[a.outcome] - weight[b.outcome] || severity[a.severity] - severity[b.severity];

/**
 * The word for a verdict: what stands behind a limit decides how heavy it may be; a rule without a limit of the
 * operation's brings its own.
 */
export function verdictWord({ words, language }: Telling, { outcome, basis, ruleId }: Outcome): string {
  const rule = ruleById(ruleId);
  if (outcome === 'broken') return ownWord(basis, outcome, rule ?? {})?.[language] ?? words.verdicts.broken[basis];
  const within = outcome === 'met' && basis === 'practice' && rule?.brokenWord === undefined;
  return within ? words.verdicts.metPractice : words.verdicts[outcome];
}

/** `hold time 9.2 h (advised 6, limit 8)`: figures by their names in words. */
export function figureText(figure: Figure, language: Telling['language']): string {
  const compared = { en: ['advised', 'limit'], es: ['aconsejado', 'límite'] }[language];
  const value =
    figure.range !== undefined
      ? `${brief(figure.range[0], 2)}–${brief(figure.range[1], 2)}`
      : typeof figure.value === 'number'
        ? brief(figure.value, 2)
        : figure.value === null
          ? '?'
          : figureWord(figure.value, language);
  const limits = [figure.advised, figure.limit].flatMap((each, index) =>
    each === undefined ? [] : [`${compared[index] ?? ''} ${brief(each, 2)}`],
  );
  const unit = figure.unit === undefined ? '' : ` ${unitName(figure.unit)}`;
  return `${figureName(figure.name, language)} ${value}${unit}${limits.length === 0 ? '' : ` (${limits.join(', ')})`}`;
}

const mostFigures = 8;

/** The figures that differ, as many as a reader takes in; the data has all. */
function figuresText(telling: Telling, figures: readonly Figure[]): string {
  const texts = [...new Set(figures.map((figure) => figureText(figure, telling.language)))];
  const shown = texts.length > mostFigures + 1 ? texts.slice(0, mostFigures) : texts;
  const further = texts.length - shown.length;
  return [...shown, ...(further === 0 ? [] : [telling.words.furtherFigures(further)])].join(' · ');
}

/** `draw T-14 · North 4`; of several things of a kind their codes. */
const aboutText = ({ words }: Telling, kind: Outcome['about']['kind'], codes: string): string =>
  `${words.kinds[kind]} ${codes}`;

export function verdictLine(telling: Telling, outcome: Outcome): VerdictLine {
  const due = outcome.dueAt === undefined ? '' : ` → ${localTime(outcome.dueAt, telling.zone)}`;
  return {
    mark: outcome.outcome,
    word: `${verdictWord(telling, outcome)}${due}`,
    title: titleIn(outcome, telling.language),
    about: aboutText(telling, outcome.about.kind, outcome.about.code),
    // Without the word that the rules put in front of it: the report prints its own.
    message: factsIn(outcome, telling.language),
    citation: sourceIn(outcome.citation, telling.language),
    figures: figuresText(telling, outcome.figures),
  };
}

const groupOf: Readonly<Record<Basis, 'required' | 'guideline' | 'practice'>> = {
  regulation: 'required',
  certifier: 'required',
  ownPlan: 'required',
  guideline: 'guideline',
  practice: 'practice',
};
const groupOrder = ['critical', 'required', 'guideline', 'practice'] as const;

type Group = (typeof groupOrder)[number];

/**
 * What is critical and broken, or cannot be told, goes before all: a recalled lot is no matter of own practice, though
 * no regulation sets the rule that looks for it.
 */
const isPressing = ({ severity, outcome }: Outcome): boolean =>
  severity === 'critical' && (outcome === 'broken' || outcome === 'unknown');

/** Splits outcomes into groups by what stands behind them, in their order; empty groups are left out. */
export function byBasis<T extends Outcome>(
  items: readonly T[],
): { readonly group: Group; readonly items: readonly T[] }[] {
  const groups = Map.groupBy(items, (item): Group => (isPressing(item) ? 'critical' : groupOf[item.basis]));
  return groupOrder.flatMap((group) => {
    const found = groups.get(group);
    return found === undefined ? [] : [{ group, items: found }];
  });
}

/** The heading of a group, and of own practice what it is. */
export function groupHeading({ words }: Telling, group: Group): Block[] {
  return [
    { kind: 'heading', level: 2, text: words.groups[group] },
    ...(group === 'practice' ? [{ kind: 'paragraph' as const, text: words.groups.practiceNote }] : []),
  ];
}

/** Verdicts under a heading for each basis: what binds first, own practice as an annex that says what it is. */
export function verdictBlocks(telling: Telling, outcomes: readonly Outcome[]): Block[] {
  return byBasis(outcomes).flatMap(({ group, items }): Block[] => [
    ...groupHeading(telling, group),
    ...told(
      telling,
      items.filter((outcome) => !isSettled(outcome)),
    ),
    ...settled(telling, items.filter(isSettled)),
  ]);
}

const isSettled = ({ outcome }: Outcome): boolean => outcome === 'met' || outcome === 'notApplicable';

const told = (telling: Telling, outcomes: readonly Outcome[]): Block[] =>
  outcomes.length === 0
    ? []
    : [{ kind: 'verdicts', items: outcomes.toSorted(worstFirst).map((outcome) => answeredLine(telling, outcome)) }];

/** A verdict with what the operation answered to it. */
function answeredLine(telling: Telling, outcome: Outcome): VerdictLine {
  const notes = answersTo(telling, outcome.findingId);
  return { ...verdictLine(telling, outcome), ...(notes.length === 0 ? {} : { notes }) };
}

/** What needs nobody's eye takes a line each; what is said alike of several things of a kind, one line for all of them. */
function settled(telling: Telling, outcomes: readonly Outcome[]): Block[] {
  if (outcomes.length === 0) return [];
  const { words } = telling;
  const alike = Map.groupBy(outcomes.toSorted(worstFirst), (outcome) =>
    JSON.stringify([outcome.ruleId, outcome.outcome, outcome.about.kind, factsIn(outcome, telling.language)]),
  );
  const rows = [...alike.values()].flatMap((same) => {
    const [first] = same;
    if (first === undefined) return [];
    const line = verdictLine(telling, first);
    const codes = same.map(({ about }) => about.code).join(', ');
    return [
      [
        { text: line.word, value: first.outcome, mark: line.mark },
        { text: line.title, value: first.ruleId },
        { text: aboutText(telling, first.about.kind, codes), value: codes },
        { text: line.message },
      ],
    ];
  });
  return [
    {
      kind: 'table',
      name: 'settled',
      caption: words.settled,
      columns: [
        { key: 'verdict', label: words.verdictTable.verdict, type: 'verdict' },
        { key: 'rule', label: words.verdictTable.rule, type: 'text' },
        { key: 'about', label: words.verdictTable.about, type: 'text' },
        { key: 'says', label: words.verdictTable.says, type: 'text', width: 2 },
      ],
      rows,
    },
  ];
}
