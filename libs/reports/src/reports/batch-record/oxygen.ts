import type { Batch } from '@furrowmark/domain';
import type { Outcome } from '@furrowmark/rules';
import type { Block, OxygenChart } from '../../content.ts';
import { brief, momentCell, nameOf, numberCell, spanText, type Telling } from '../../telling/index.ts';
import { airSpans, shownTime } from './air.ts';
import { brews, limitOf } from './ribbon.ts';
import { batchWords } from './words.ts';

/** All readings to the places of the finest one, at least one: a column that lines up. */
function asMeasured(batch: Batch, mgPerL: number): string {
  const finest = Math.max(1, ...batch.oxygen.map((reading) => brief(reading.mgPerL, 2).split('.')[1]?.length ?? 0));
  return mgPerL.toFixed(finest);
}

/** The oxygen trace with its limit, and every reading as a table. */
export function oxygen(telling: Telling, batch: Batch, outcomes: readonly Outcome[]): Block[] {
  const own = batchWords[telling.language];
  const heading: Block = { kind: 'heading', level: 2, text: own.oxygen };
  if (batch.oxygen.length === 0) return [heading, { kind: 'paragraph', text: own.noOxygen }];
  const seaLevel: Block[] =
    telling.season.elevationM === null ? [{ kind: 'note', tone: 'info', text: own.seaLevel }] : [];
  return [heading, chart(telling, batch, outcomes), ...seaLevel, readings(telling, batch)];
}

function chart(telling: Telling, batch: Batch, outcomes: readonly Outcome[]): OxygenChart {
  const own = batchWords[telling.language];
  const { from, to } = shownTime(batch, telling.now);
  const lowest = batch.oxygen.reduce((least, reading) => Math.min(least, reading.mgPerL), Infinity);
  return {
    kind: 'oxygenChart',
    title: own.oxygenTitle,
    description: own.oxygenSays(batch.oxygen.length, brief(lowest, 2)),
    from,
    to,
    timeZone: telling.zone,
    limitMgPerL: limitOf(outcomes, 'oxygen-minimum') ?? null,
    readings: batch.oxygen.map((reading) => ({
      at: reading.at.at,
      mgPerL: reading.mgPerL,
      label: asMeasured(batch, reading.mgPerL),
      ...(reading.saturationPercent === null || reading.saturationPercent === 0
        ? {}
        : { saturationMgPerL: (reading.mgPerL * 100) / reading.saturationPercent }),
    })),
    bands: [
      ...airSpans(batch, to).map((span) => ({
        from: span.from,
        to: span.to,
        label: '',
        kind: span.running ? ('air' as const) : ('noAir' as const),
      })),
      ...brewBands(telling, batch, to),
      ...batch.draws.flatMap(({ lastAir, appliedUntil, holdHours }) =>
        lastAir === null || appliedUntil === null || appliedUntil.at <= lastAir.at
          ? []
          : [
              {
                from: lastAir.at,
                to: appliedUntil.at,
                label: own.held(spanText(telling, holdHours, 'h')),
                kind: 'hold' as const,
              },
            ],
      ),
    ],
    marks: [
      ...(batch.brewStart === null ? [] : [{ at: batch.brewStart.at, label: own.brewFrom.toLowerCase() }]),
      ...(batch.airOff === null ? [] : [{ at: batch.airOff.at, label: own.airOff.toLowerCase() }]),
    ],
  };
}

/** The brew of each draw; while nothing was drawn, the one that is under way. A tank fed all season has many. */
function brewBands(telling: Telling, batch: Batch, end: number): OxygenChart['bands'] {
  const drawn = brews(telling, batch);
  if (drawn.length > 0 || batch.brewStart === null) return drawn.map((span) => ({ ...span, kind: 'brew' }));
  const label = batchWords[telling.language].brewed(spanText(telling, batch.brewHours, 'h'));
  return [{ from: batch.brewStart.at, to: batch.airOff?.at ?? end, label, kind: 'brew' }];
}

function readings(telling: Telling, batch: Batch): Block {
  const own = batchWords[telling.language];
  const { words, season } = telling;
  return {
    kind: 'table',
    name: 'oxygen',
    caption: own.readings,
    columns: [
      { key: 'at', label: words.time(telling.zone), type: 'instant' },
      { key: 'mgPerL', label: own.mgPerL, type: 'number' },
      { key: 'temperatureC', label: own.temperature, type: 'number' },
      { key: 'saturationPercent', label: own.saturation, type: 'number' },
      { key: 'instrument', label: own.instrument, type: 'text' },
    ],
    rows: batch.oxygen.map((reading) => [
      momentCell(telling, reading.at),
      { text: asMeasured(batch, reading.mgPerL), value: reading.mgPerL },
      numberCell(reading.temperatureC, 1, '–'),
      numberCell(reading.saturationPercent, 0, '–'),
      {
        text:
          reading.instrumentId === undefined ? words.notRecorded : nameOf({ ...telling, season }, reading.instrumentId),
      },
    ]),
  };
}
