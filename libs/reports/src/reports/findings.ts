import { instantOf } from '@furrowmark/domain';
import { findings as findingsOf, type Finding } from '@furrowmark/rules';
import { localTime } from '../clock.ts';
import type { Block, VerdictLine } from '../content.ts';
import { byBasis, personName, report, shortId, tell, verdictLine, worstFirst, type Telling } from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { texts } from './findings-words.ts';

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

/** Cause and action, as the operation answered, and what resolved it. */
function notesOf(telling: Telling, finding: Finding): NonNullable<VerdictLine['notes']> {
  const own = texts[telling.language];
  const { season, zone } = telling;
  const who = (id: string): string =>
    season.person(id) === undefined ? (telling.accounts?.get(id) ?? own.account(shortId(id))) : personName(telling, id);
  const records = finding.recordIds.flatMap((recordId) => season.record(recordId)?.seq ?? []).toSorted((a, b) => a - b);
  const shown = records.slice(0, 12).map(String).join(', ') + (records.length > 12 ? ' …' : '');
  const resolved = finding.resolvedBy === undefined ? undefined : season.record(finding.resolvedBy)?.seq;
  const items = finding.answers.flatMap((answer) => [
    {
      term: own.cause,
      value: `${answer.cause} — ${own.answer(localTime(instantOf(answer.answeredAt), zone), who(answer.answeredBy), own.answerStates[answer.state])}`,
    },
    { term: own.action, value: answer.action || '–' },
  ]);
  return [
    ...(items.length === 0 && finding.state === 'open' ? [{ term: own.cause, value: own.unanswered }] : items),
    ...(resolved === undefined ? [] : [{ term: own.states.resolved, value: own.resolvedBy(String(resolved)) }]),
    ...(shown === '' ? [] : [{ term: own.records, value: shown }]),
  ];
}

function counts(telling: Telling, found: readonly Finding[]): Block {
  const own = texts[telling.language];
  const severities = ['critical', 'major', 'minor', 'notice'] as const;
  const states = ['open', 'answered', 'resolved'] as const;
  const count = (test: (finding: Finding) => boolean): { text: string; value: number } => {
    const value = found.filter(test).length;
    return { text: String(value), value };
  };
  return {
    kind: 'table',
    name: 'counts',
    caption: own.counts,
    columns: [
      { key: 'severity', label: own.severity, type: 'text' },
      { key: 'open', label: own.openCount, type: 'number' },
      { key: 'answered', label: own.answeredCount, type: 'number' },
      { key: 'resolved', label: own.resolvedCount, type: 'number' },
    ],
    rows: severities.map((severity) => [
      { text: telling.words.severities[severity], value: severity },
      ...states.map((state) => count((finding) => finding.severity === severity && finding.state === state)),
    ]),
    total: [{ text: telling.words.total }, ...states.map((state) => count((finding) => finding.state === state))],
  };
}

export function findingBlocks(telling: Telling, found: readonly Finding[]): Block[] {
  const own = texts[telling.language];
  const inState = (state: Finding['state']): number => found.filter((finding) => finding.state === state).length;
  if (found.length === 0) return [{ kind: 'paragraph', text: own.none }];
  return [
    { kind: 'paragraph', text: own.summary(inState('open'), inState('answered'), inState('resolved')) },
    counts(telling, found),
    ...byBasis(found).flatMap(({ group, items }): Block[] => [
      { kind: 'heading', level: 2, text: telling.words.groups[group] },
      ...(group === 'practice' ? [{ kind: 'paragraph' as const, text: telling.words.groups.practiceNote }] : []),
      { kind: 'verdicts', items: items.toSorted(heaviestFirst).map((finding) => lineOf(telling, finding)) },
    ]),
  ];
}

const stateOrder = { open: 0, answered: 1, resolved: 2 } as const;
const weight = { critical: 0, major: 1, minor: 2, notice: 3 } as const;
/** What still waits for an answer comes first, the heaviest of it on top. */
const heaviestFirst = (a: Finding, b: Finding): number =>
  stateOrder[a.state] - stateOrder[b.state] || weight[a.severity] - weight[b.severity] || worstFirst(a, b);

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
