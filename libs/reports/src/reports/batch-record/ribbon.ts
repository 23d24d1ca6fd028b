import type { Batch } from '@furrowmark/domain';
import type { Outcome } from '@furrowmark/rules';
import { localTime } from '../../clock.ts';
import type { BatchRibbon, Block } from '../../content.ts';
import { brief, litresText, lotName, nameOf, spanText, type Telling } from '../../telling/index.ts';
import { airSpans, shownTime } from './air.ts';
import { batchWords } from './words.ts';

type Lane = BatchRibbon['lanes'][number];
const minute = 60_000;

/** The places a batch's application went to. */
export function placesOf(telling: Telling, applicationId: string): string {
  const targets = telling.season.application(applicationId)?.targets ?? [];
  const ids = targets.flatMap(({ fieldId, lotId }) => [fieldId ?? lotId ?? []].flat());
  return [...new Set(ids.map((id) => nameOf(telling, id)))].join(', ');
}

/** What the rules gave as the limit of a figure for this subject. */
export function limitOf(outcomes: readonly Outcome[], ruleId: string, subjectId?: string): number | undefined {
  return outcomes
    .filter((outcome) => outcome.ruleId === ruleId && (subjectId === undefined || outcome.about.id === subjectId))
    .flatMap((outcome) => outcome.figures)
    .find((figure) => figure.limit !== undefined)?.limit;
}

export function ribbon(telling: Telling, batch: Batch, outcomes: readonly Outcome[]): Block[] {
  const own = batchWords[telling.language];
  const { from, to } = shownTime(batch, telling.now);
  if (to <= from) return [];
  const lanes: Lane[] = [
    water(telling, batch),
    air(telling, batch, to),
    food(telling, batch),
    brewAndHold(telling, batch, outcomes),
    applied(telling, batch),
  ].filter((lane) => lane.spans.length + lane.marks.length > 0);
  const { zone } = telling;
  const description = own.ribbonSays(localTime(from, zone), localTime(to, zone));
  return [{ kind: 'batchRibbon', title: own.ribbon, description, from, to, timeZone: zone, lanes }];
}

function water(telling: Telling, batch: Batch): Lane {
  const own = batchWords[telling.language];
  const spans = batch.fills.map(
    (fill) =>
      ({
        from: fill.started.at,
        to: fill.finished.at,
        label: own.fill(litresText(telling, fill.litres)),
        kind: 'fill',
      }) as const,
  );
  return { label: own.lanes.water, spans, marks: batch.chlorine.map(({ at }) => ({ at: at.at, label: own.chlorine })) };
}

function air(telling: Telling, batch: Batch, end: number): Lane {
  const own = batchWords[telling.language];
  const spans = airSpans(batch, end).map(({ from, to, running, minutes }) => ({
    from,
    to,
    kind: running ? ('air' as const) : ('noAir' as const),
    label: running ? '' : own.offFor(spanText(telling, minutes, 'min', 0)),
  }));
  return { label: own.lanes.air, spans, marks: [] };
}

function food(telling: Telling, batch: Batch): Lane {
  const own = batchWords[telling.language];
  return {
    label: own.lanes.food,
    spans: [],
    marks: batch.ingredients.map(({ at, lotId }) => ({ at: at.at, label: lotName(telling, lotId) })),
  };
}

function brewAndHold(telling: Telling, batch: Batch, outcomes: readonly Outcome[]): Lane {
  const own = batchWords[telling.language];
  const marks: Lane['marks'][number][] = [];
  const holds = batch.draws.flatMap((draw) => {
    const { lastAir, appliedUntil, holdHours } = draw;
    if (lastAir === null || appliedUntil === null || appliedUntil.at <= lastAir.at) return [];
    const limit = limitOf(outcomes, 'hold-maximum', draw.id);
    if (limit !== undefined && holdHours !== null && holdHours.most > limit) {
      marks.push({ at: lastAir.at + limit * 60 * minute, label: own.holdLimit(brief(limit, 1)) });
    }
    const label = own.held(spanText(telling, holdHours, 'h'));
    return [{ from: lastAir.at, to: appliedUntil.at, kind: 'hold' as const, label }];
  });
  return { label: own.lanes.brew, spans: [...brews(telling, batch), ...oneLabelEach(holds)], marks };
}

/** One bracket for all draws that follow the same brew; its label gives the shortest and the longest. */
export function brews(telling: Telling, batch: Batch): Lane['spans'][number][] {
  const own = batchWords[telling.language];
  const starts = [...new Set(batch.draws.flatMap(({ brewFrom }) => brewFrom?.at ?? []))];
  return starts.map((from) => {
    const draws = batch.draws.filter(({ brewFrom }) => brewFrom?.at === from);
    const hours = draws.flatMap(({ brewHours }) => brewHours ?? []);
    const to = Math.max(...draws.map(({ airOff, at }) => Math.min(airOff?.at ?? Infinity, at.at)));
    const least = Math.min(...hours.map((span) => span.least));
    const most = Math.max(...hours.map((span) => span.most));
    const length = hours.length === 0 ? null : { value: most, least, most };
    return { from, to, kind: 'brew', label: own.brewed(spanText(telling, length, 'h')) };
  });
}

/** Of stretches that begin together only the longest keeps its label. */
function oneLabelEach<T extends { readonly from: number; readonly to: number; readonly label: string }>(
  spans: readonly T[],
): T[] {
  return spans.map((span) => {
    const outdone = spans.some((other) => other !== span && other.from === span.from && other.to > span.to);
    return outdone ? { ...span, label: '' } : span;
  });
}

function applied(telling: Telling, batch: Batch): Lane {
  const own = batchWords[telling.language];
  const spans = telling.season.applicationsOf(batch.id).map(
    (application) =>
      ({
        from: application.started.at,
        to: application.finished.at,
        kind: 'apply',
        label: placesOf(telling, application.id) || application.code,
      }) as const,
  );
  return { label: own.lanes.applied, spans, marks: [] };
}
