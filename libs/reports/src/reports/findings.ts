import { instantOf } from '@furrowmark/domain';
import { factsIn, findings as findingsOf, type Finding } from '@furrowmark/rules';
import { localTime } from '../clock.ts';
import type { Block, VerdictLine } from '../content.ts';
import {
  answerNotes,
  answerWords,
  byBasis,
  groupHeading,
  report,
  tell,
  verdictLine,
  worstFirst,
  type Telling,
} from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { texts } from './findings-words.ts';

type Notes = NonNullable<VerdictLine['notes']>;

/** Where the records do not tell since when: whether anything recorded of the subject reaches into the period. */
function touches({ season }: Telling, { about }: Finding, { start, end }: Period): boolean {
  const at = season.about(about.id).map((record) => record.at.at);
  return at.length === 0 || (at.some((each) => each < end) && at.some((each) => each >= start));
}

/** Findings that came to be within the period; where that is not told, those about something of the period. */
export const findingsWithin = (telling: Telling, time: Period): readonly Finding[] =>
  findingsOf(telling.season, telling.now).filter((finding) =>
    finding.since === null ? touches(telling, finding, time) : isWithin(time, instantOf(finding.since)),
  );

function lineOf(telling: Telling, finding: Finding): VerdictLine {
  const own = texts[telling.language];
  const line = verdictLine(telling, finding);
  const since = finding.since === null ? [] : [own.since(localTime(instantOf(finding.since), telling.zone))];
  const gone = finding.standing || finding.state === 'resolved' ? [] : [own.gone];
  const state = [own.states[finding.state], ...gone, telling.words.severities[finding.severity], ...since].join(', ');
  return { ...line, word: `${line.word} (${state})`, notes: notesOf(telling, finding) };
}

/** Cause and action, as the operation answered, and what resolved it. A caution asks for neither. */
function notesOf(telling: Telling, finding: Finding): Notes {
  const own = texts[telling.language];
  const { season } = telling;
  const resolved = finding.resolvedBy === undefined ? undefined : season.record(finding.resolvedBy)?.seq;
  const waits = finding.answers.length === 0 && finding.state === 'open' && !isCaution(finding);
  return [
    ...answerNotes(telling, finding.answers),
    ...(waits ? [{ term: answerWords[telling.language].cause, value: own.unanswered }] : []),
    ...(resolved === undefined ? [] : [{ term: own.resolved, value: own.resolvedBy(String(resolved)) }]),
    ...recordsNote(telling, finding.recordIds),
  ];
}

const mostRecords = 12;

function recordsNote({ season, language }: Telling, recordIds: readonly string[]): Notes {
  const seqs = new Set(recordIds.flatMap((recordId) => season.record(recordId)?.seq ?? []));
  if (seqs.size === 0) return [];
  const shown = [...seqs].toSorted((a, b) => a - b).slice(0, mostRecords);
  const value = shown.join(', ') + (seqs.size > mostRecords ? ' …' : '');
  return [{ term: texts[language].records, value }];
}

const isCaution = ({ outcome }: Finding): boolean => outcome === 'caution';

/** Cautions that say the same of several things are one line for all of them; everything else stands alone. */
function linesOf(telling: Telling, found: readonly Finding[]): VerdictLine[] {
  const alike = Map.groupBy(found, (finding) =>
    isCaution(finding) && finding.answers.length === 0
      ? JSON.stringify([finding.ruleId, finding.state, finding.about.kind, factsIn(finding, telling.language)])
      : finding.findingId,
  );
  return [...alike.values()].flatMap((same) => {
    const [first, ...more] = same;
    if (first === undefined) return [];
    if (more.length === 0) return [lineOf(telling, first)];
    const codes = same
      .map(({ about }) => about.code)
      .toSorted((a, b) => a.localeCompare(b))
      .join(', ');
    const all = { ...first, since: null, about: { ...first.about, code: codes } };
    return [lineOf(telling, { ...all, recordIds: same.flatMap(({ recordIds }) => recordIds) })];
  });
}

function counts(telling: Telling, found: readonly Finding[]): Block {
  const own = texts[telling.language];
  const severities = ['critical', 'major', 'minor', 'notice'] as const;
  const states = ['open', 'answered', 'resolved'] as const;
  const columns: readonly ((finding: Finding) => boolean)[] = [
    ...states.map((state) => (finding: Finding) => !isCaution(finding) && finding.state === state),
    isCaution,
  ];
  const counted = (among: readonly Finding[]): { text: string; value: number }[] =>
    columns.map((belongs) => {
      const value = among.filter(belongs).length;
      return { text: String(value), value };
    });
  return {
    kind: 'table',
    name: 'counts',
    caption: own.counts,
    columns: [
      { key: 'severity', label: own.severity, type: 'text' },
      { key: 'open', label: own.openCount, type: 'number' },
      { key: 'answered', label: own.answeredCount, type: 'number' },
      { key: 'resolved', label: own.resolvedCount, type: 'number' },
      { key: 'cautions', label: own.cautionCount, type: 'number' },
    ],
    rows: severities.map((severity) => [
      { text: telling.words.severities[severity], value: severity },
      ...counted(found.filter((finding) => finding.severity === severity)),
    ]),
    total: [{ text: telling.words.total }, ...counted(found)],
  };
}

export function findingBlocks(telling: Telling, found: readonly Finding[]): Block[] {
  const own = texts[telling.language];
  if (found.length === 0) return [{ kind: 'paragraph', text: own.none }];
  const inState = (state: Finding['state']): number =>
    found.filter((finding) => !isCaution(finding) && finding.state === state).length;
  const cautions = found.filter(isCaution).length;
  const summary = own.summary(inState('open'), inState('answered'), inState('resolved'));
  return [
    { kind: 'paragraph', text: cautions === 0 ? summary : `${summary} ${own.cautions(cautions)}` },
    counts(telling, found),
    ...byBasis(found).flatMap(({ group, items }): Block[] => [
      ...groupHeading(telling, group),
      { kind: 'verdicts', items: linesOf(telling, items.toSorted(heaviestFirst)) },
    ]),
  ];
}

const stateOrder = { open: 0, answered: 1, resolved: 2 } as const;
const weight = { critical: 0, major: 1, minor: 2, notice: 3 } as const;
/** What still waits for an answer comes first, the heaviest of it on top; cautions, which ask for none, are last. */
const heaviestFirst = (a: Finding, b: Finding): number =>
  Number(isCaution(a)) - Number(isCaution(b)) ||
  stateOrder[a.state] - stateOrder[b.state] ||
  weight[a.severity] - weight[b.severity] ||
  worstFirst(a, b);

/** What broke a limit or cannot be told, with figures, records, and what the operation did about it. */
export const findingsReport = defineReport({
  kind: 'findings',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const time = periodOf(telling, parameters);
    return report(
      telling,
      { kind: 'findings', title: texts[telling.language].title, period: { from: time.from, to: time.to } },
      findingBlocks(telling, findingsWithin(telling, time)),
    );
  },
});
