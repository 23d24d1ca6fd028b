import { addDays, dateOn, daysBetween, type Batch, type Vessel } from '@furrowmark/domain';
import type { BatchRibbon, Block, Cell } from '../content.ts';
import { report, sumCell, tell, type Telling } from '../telling/index.ts';
import { timeOf } from './batch-record/air.ts';
import { defineReport } from './kind.ts';
import { period, periodOf, type Period } from './parameters.ts';
import { texts } from './tank-calendar-words.ts';

interface Use {
  readonly batch: Batch;
  readonly from: number;
  readonly to: number;
}

/** The batches of a tank that touch the period, in order of time. */
function usesOf(telling: Telling, vessel: Vessel, time: Period): Use[] {
  return telling.season
    .batchesIn(vessel.id)
    .filter((batch) => batch.fills.length > 0 || batch.opened !== null)
    .map((batch) => ({ batch, ...timeOf(batch, telling.now) }))
    .filter(({ from, to }) => from < time.end && to >= time.start)
    .toSorted((a, b) => a.from - b.from);
}

/** Days of each use and of each gap between; a day on which a tank holds tea at all is no idle day. */
function daysOf(telling: Telling, uses: readonly Use[], time: Period): Cell[][] {
  const own = texts[telling.language];
  const rows: Cell[][] = [];
  let free = time.from;
  const last = time.to < dateOn(telling.now, telling.zone) ? time.to : dateOn(telling.now, telling.zone);
  const row = (from: string, to: string, code: string | null): Cell[] => {
    const days = daysBetween(from, to) + 1;
    const [counted, other]: Cell[] = [
      { text: String(days), value: days },
      { text: '', value: null },
    ];
    const cells = code === null ? [other, counted] : [counted, other];
    return [{ text: from }, { text: to }, { text: code ?? own.idle }, ...cells.flatMap((cell) => cell ?? [])];
  };
  const gap = (to: string): void => {
    if (to < free) return;
    rows.push(row(free, to, null));
  };
  for (const { batch, from, to } of uses) {
    const first = [dateOn(from, telling.zone), time.from].toSorted().at(-1) ?? time.from;
    const end = [dateOn(to, telling.zone), time.to].toSorted()[0] ?? time.to;
    gap(addDays(first, -1));
    rows.push(row(first, end, batch.code));
    const next = addDays(end, 1);
    if (next > free) free = next;
  }
  gap(last);
  return rows;
}

function picture(telling: Telling, vessels: readonly Vessel[], time: Period): Block[] {
  const own = texts[telling.language];
  const to = Math.min(time.end, telling.now);
  const lanes: BatchRibbon['lanes'] = vessels.map((vessel) => ({
    label: vessel.registered.code,
    spans: usesOf(telling, vessel, time).map((use) => ({
      from: Math.max(use.from, time.start),
      to: Math.min(use.to, to),
      label: use.batch.code,
      kind: 'air' as const,
    })),
    marks: [],
  }));
  const count = lanes.reduce((sum, { spans }) => sum + spans.length, 0);
  if (count === 0 || to <= time.start) return [];
  const description = own.pictureSays(vessels.length, count);
  return [
    { kind: 'batchRibbon', title: own.picture, description, from: time.start, to, timeZone: telling.zone, lanes },
  ];
}

export function tankBlocks(telling: Telling, time: Period): Block[] {
  const own = texts[telling.language];
  const vessels = telling.season.vessels().toSorted((a, b) => a.registered.code.localeCompare(b.registered.code));
  if (vessels.length === 0) return [{ kind: 'paragraph', text: own.none }];
  return [
    ...picture(telling, vessels, time),
    ...vessels.flatMap((vessel): Block[] => {
      const uses = usesOf(telling, vessel, time);
      const rows = daysOf(telling, uses, time);
      return [
        { kind: 'heading', level: 2, text: vessel.registered.code },
        ...(uses.length === 0 ? [{ kind: 'paragraph' as const, text: own.unused }] : []),
        {
          kind: 'table',
          name: `tank-${vessel.registered.code}`,
          caption: '',
          columns: [
            { key: 'from', label: own.from, type: 'date' },
            { key: 'to', label: own.to, type: 'date' },
            { key: 'what', label: own.what, type: 'text' },
            { key: 'daysInUse', label: own.inUse, type: 'number' },
            { key: 'idleDays', label: own.idleDays, type: 'number' },
          ],
          rows,
          total: [
            { text: telling.words.total },
            { text: '' },
            { text: '' },
            ...[3, 4].map((column) =>
              sumCell(
                rows.map((each) => each[column]),
                0,
              ),
            ),
          ],
        },
      ];
    }),
  ];
}

/** Tank by tank: which batch stood in it from when to when, and its idle days. */
export const tankCalendar = defineReport({
  kind: 'tank-calendar',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const time = periodOf(telling, parameters);
    return report(
      telling,
      { kind: 'tank-calendar', title: texts[telling.language].title, period: { from: time.from, to: time.to } },
      tankBlocks(telling, time),
    );
  },
});
