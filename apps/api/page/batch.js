import { h } from './element.js';
import { marks } from './list.js';
import { reportButton } from './reports.js';
import { ribbon } from './ribbon.js';
import { ask } from './session.js';
import { timeline } from './timeline.js';
import { verdicts } from './verdicts.js';
import { clock, quantity } from './words.js';

/** One batch: the clock leads, then the verdicts, then every record behind them. */
export async function showBatch(view, path, batchId, time, vessels) {
  const batch = await ask(`${path}/batches/${batchId}`);
  const { facts } = batch;
  const picture = h('figure', {});
  view.replaceChildren(
    h('p', { class: 'back' }, h('a', { href: '#' }, '← all batches')),
    h(
      'div',
      { class: 'row' },
      h('h1', {}, `${batch.code} · ${vessels.get(facts.vesselId) ?? ''}`),
      h('p', {}, batch.phase),
    ),
    marks(batch.outcomes),
    batch.nextDue === null || batch.nextDue === undefined
      ? ''
      : h('p', {}, h('strong', {}, `Next: ${batch.nextDue.what} by ${time.both(batch.nextDue.at)}`)),
    picture,
    h(
      'dl',
      { class: 'facts' },
      figures(facts, time).map(([term, value]) => h('div', {}, h('dt', {}, term), h('dd', {}, value))),
    ),
    reportButton(
      `${path}/reports/batch-record.pdf?batch=${batchId}`,
      `batch-record-${batch.code}.pdf`,
      'Batch record (PDF)',
    ),
    h('h2', {}, 'Verdicts'),
    ...verdicts(batch.outcomes).filter((part) => part !== null),
    h('h2', {}, 'Records'),
    timeline(batch.timeline, time),
  );
  draw(picture, batch, time);
}

function figures(facts, time) {
  const said = (at) => (at ? time.both(at) : '–');
  const litres = (name) => (facts.volume?.[name] === undefined ? '–' : `${Math.round(facts.volume[name])} L`);
  return [
    ['Filled', facts.volumeFilled ? `${quantity(facts.volumeFilled)}, ${said(facts.filledAt)}` : '–'],
    ['Air on', said(facts.airStartedAt)],
    ['Air before feeding', minutes(facts)],
    ['Brew started', said(facts.brewStartedAt)],
    ['Air off', said(facts.airStoppedAt)],
    ['Brew, shortest', clock(facts, 'brewHours')],
    ['Hold, longest', clock(facts, 'holdHours')],
    ['Oxygen, lowest', facts.oxygen?.lowestMgPerL ? `${facts.oxygen.lowestMgPerL} mg/L` : '–'],
    ['Drawn', litres('drawnL')],
    ['Not accounted for', litres('unaccountedL')],
  ];
}

const minutes = (facts) =>
  facts.preAerationMinutes === null || facts.preAerationMinutes === undefined
    ? '–'
    : `${Math.round(facts.preAerationMinutes)} min`;

/** Drawn at the width there is, and again when that changes: a scaled picture would have letters nobody can read. */
function draw(picture, batch, time) {
  let drawnAt = 0;
  const redraw = () => {
    const width = Math.round(picture.clientWidth);
    if (width === 0 || width === drawnAt) return;
    drawnAt = width;
    const drawing = ribbon(batch, time, width);
    if (drawing === null) return;
    picture.replaceChildren(
      drawing,
      h(
        'figcaption',
        {},
        'Water; air (dashed: off since some time in there); brew (upper bracket) and hold (lower), what went out; oxygen with the usual limit of 6 mg/L, which is practice and no regulation.',
      ),
    );
  };
  redraw();
  new ResizeObserver(redraw).observe(picture);
}
