import { s } from './element.js';

const HOUR = 3_600_000;
const LEFT = 58;
const LANES = ['water', 'air', 'brew, hold', 'out'];
const LANE = 30;
const OXYGEN = 96;

/** Everything on true time: what the tank's records say, in milliseconds. Struck records are left out. */
function moments({ facts, timeline }) {
  const ms = (text) => (text ? Date.parse(text) : null);
  const live = timeline.filter((record) => record.state !== 'struck');
  const of = (type) => live.filter((record) => record.type === type);
  const at = (record) => Date.parse(record.occurredAt);
  const applications = of('application.made').map((record) => ({
    from: ms(record.data.startedAt),
    to: ms(record.data.finishedAt),
    code: record.data.code ?? '',
  }));
  const filledAt = of('batch.filled').map(at);
  const readings = (facts.oxygen?.readings ?? []).map((reading) => ({ at: ms(reading.at), mgPerL: reading.mgPerL }));
  const draws = of('batch.drawn').map((record) => ({ at: at(record), id: record.data.drawId }));
  const all = [
    ...filledAt,
    ...readings.map((reading) => reading.at),
    ...applications.flatMap((one) => [one.from, one.to]),
    ...live.filter((record) => record.type.startsWith('batch.air')).map(at),
    ...draws.map((draw) => draw.at),
  ].filter((moment) => moment !== null);
  return {
    ...{ applications, filledAt, readings, draws },
    chlorine: of('batch.chlorineMeasured').map(at),
    airOn: ms(facts.airStartedAt),
    airOff: ms(facts.airStoppedAt),
    brewFrom: ms(facts.brewStartedAt),
    // A power cut found at dawn: off since some moment in this stretch.
    doubtful: of('batch.airStopped')
      .map((record) => ({ from: ms(record.data.lastKnownRunningAt), to: at(record) }))
      .filter((stretch) => stretch.from !== null),
    gaps: (facts.airInterruptions ?? []).map((gap) => ({ from: ms(gap.from), to: ms(gap.to) })),
    from: Math.min(...all),
    to: Math.max(...all),
  };
}

/** The batch as one stretch of time: water, air with its gaps, brew and hold, what went out, and the oxygen under it. */
export function ribbon(batch, time, width) {
  const it = moments(batch);
  if (!Number.isFinite(it.from) || it.to <= it.from) return null;
  const x = (at) => LEFT + ((at - it.from) / (it.to - it.from)) * (width - LEFT - 12);
  const y = (lane) => 20 + lane * LANE;
  const top = y(LANES.length) + 8;
  const height = top + OXYGEN + 8;
  const lines = [
    `From ${time.both(it.from)} to ${time.both(it.to)}.`,
    it.gaps.length === 0 ? 'No interruption of the air was recorded.' : `${it.gaps.length} interruption(s) of the air.`,
    ...it.doubtful.map((one) => `The air went off some time between ${time.both(one.from)} and ${time.both(one.to)}.`),
    `${it.applications.length} application(s), ${it.readings.length} oxygen reading(s).`,
  ];
  return s(
    'svg',
    {
      viewBox: `0 0 ${width} ${height}`,
      height,
      role: 'img',
      'aria-label': `${batch.code} on its time line. ${lines.join(' ')}`,
    },
    axis(it, x, width, height, time),
    LANES.map((name, lane) => [
      s('line', { class: 'lane', x1: LEFT, x2: width, y1: y(lane) + LANE - 2, y2: y(lane) + LANE - 2 }),
      s('text', { class: 'lanename', x: 0, y: y(lane) + 19 }, name === 'brew, hold' ? 'brew' : name),
    ]).flat(),
    it.filledAt.map((at) => s('path', { class: 'water', d: `M${x(at) - 6} ${y(0) + 6}h12l-6 14z` })),
    it.chlorine.map((at) => s('text', { x: x(at) + 5, y: y(0) + 19 }, 'Cl')),
    air(it, x, y(1)),
    clocks(it, x, y(2)),
    it.applications.map((one) =>
      s('rect', {
        class: 'out',
        x: x(one.from),
        width: Math.max(3, x(one.to) - x(one.from)),
        y: y(3) + 7,
        height: 14,
        rx: 2,
      }),
    ),
    oxygen(it, x, top, width),
  );
}

function axis(it, x, width, height, time) {
  const room = Math.max(3, Math.floor((width - LEFT) / 74));
  const step = [1, 2, 3, 6, 12, 24, 48, 96, 168].find((hours) => (it.to - it.from) / (hours * HOUR) <= room) ?? 336;
  const first = Math.ceil(it.from / (step * HOUR)) * step * HOUR;
  const ticks = [];
  let day = '';
  for (let at = first; at <= it.to; at += step * HOUR) {
    const label = time.day(at) === day ? time.time(at) : time.day(at);
    day = time.day(at);
    ticks.push(s('line', { class: 'axis', x1: x(at), x2: x(at), y1: 16, y2: height }));
    if (x(at) < width - 52) ticks.push(s('text', { x: x(at) + 2, y: 12 }, step >= 24 ? time.day(at) : label));
  }
  return ticks;
}

function air(it, x, top) {
  if (it.airOn === null) return [];
  const end = it.airOff ?? it.to;
  const cuts = it.gaps.filter((gap) => gap.to !== null && gap.from < end).toSorted((a, b) => a.from - b.from);
  const bands = [];
  let from = it.airOn;
  for (const gap of [...cuts, { from: end, to: end }]) {
    if (gap.from > from)
      bands.push(s('rect', { class: 'air', x: x(from), width: x(gap.from) - x(from), y: top + 8, height: 12 }));
    if (gap.to > gap.from)
      bands.push(
        s('rect', {
          class: 'gap',
          x: x(gap.from),
          width: Math.max(2, x(gap.to) - x(gap.from)),
          y: top + 8,
          height: 12,
        }),
      );
    from = Math.max(from, gap.to);
  }
  const doubtful = it.doubtful.map((one) =>
    s('rect', { class: 'gap', x: x(one.from), width: x(one.to) - x(one.from), y: top + 5, height: 18 }),
  );
  return [...bands, ...doubtful];
}

/** Brew: from the first ingredient to the last draw, while the air ran. Hold: the tea's last air to the end of its application. */
function clocks(it, x, top) {
  const bracket = (name, from, to, level) =>
    to > from ? s('path', { class: name, d: `M${x(from)} ${level + 5}v-5H${x(to)}v5` }) : null;
  const lastDraw = Math.max(...it.draws.map((draw) => draw.at));
  const brewTo = Math.min(...[lastDraw, it.airOff].filter((at) => at !== null && Number.isFinite(at)));
  const brew = it.brewFrom === null || !Number.isFinite(brewTo) ? null : bracket('brew', it.brewFrom, brewTo, top + 6);
  const holds = it.applications.map((one) => {
    const draw = it.draws.filter((drawn) => drawn.at <= one.from).at(-1);
    if (draw === undefined) return null;
    const lastAir = it.airOff === null ? draw.at : Math.min(draw.at, it.airOff);
    return bracket('hold', lastAir, one.to, top + 16);
  });
  return [brew, ...holds].filter((shape) => shape !== null);
}

function oxygen(it, x, top, width) {
  const y = (mgPerL) => top + OXYGEN - (Math.min(12, mgPerL) / 12) * OXYGEN;
  const line = it.readings.map((reading) => `${x(reading.at)},${y(reading.mgPerL)}`).join(' ');
  return [
    s('text', { class: 'lanename', x: 0, y: y(11) }, 'oxygen'),
    s('text', { class: 'lanename', x: 0, y: y(9) }, 'mg/L'),
    s('line', { class: 'limit', x1: LEFT, x2: width, y1: y(6), y2: y(6) }),
    s('text', { x: LEFT - 12, y: y(6) + 4 }, '6'),
    s('polyline', { class: 'oxygen', points: line }),
    it.readings.map((reading) =>
      s('circle', { class: reading.mgPerL < 6 ? 'below' : 'point', cx: x(reading.at), cy: y(reading.mgPerL), r: 3.5 }),
    ),
  ].flat();
}
