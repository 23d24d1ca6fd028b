import { h } from './element.js';
import { ask } from './session.js';
import { clock, mark, worstFirst } from './words.js';

/** The batches, newest first, each with its vessel, phase, clocks and worst verdicts. */
export async function batchList(path, time) {
  const [{ batches, asOfSeq }, vessels] = await Promise.all([everyBatch(path), vesselCodes(path)]);
  const rows = batches
    .toSorted((a, b) => startOf(b).localeCompare(startOf(a)))
    .map((batch) => row(batch, vessels, time));
  const element = h('nav', { 'aria-label': 'Batches' }, h('h2', {}, 'Batches'), h('ul', { class: 'batches' }, rows));
  const choose = (batchId) => {
    for (const link of element.querySelectorAll('a')) {
      if (link.dataset.batch === batchId) link.setAttribute('aria-current', 'true');
      else link.removeAttribute('aria-current');
    }
  };
  return { element, choose, vessels, asOfSeq, count: batches.length };
}

async function everyBatch(path) {
  const batches = [];
  let after = '';
  for (;;) {
    const page = await ask(`${path}/batches?limit=1000${after}`);
    batches.push(...page.batches);
    if (!page.next) return { batches, asOfSeq: page.asOfSeq };
    after = `&after=${encodeURIComponent(page.next)}`;
  }
}

/** What people call the tanks. */
async function vesselCodes(path) {
  const { records } = await ask(`${path}/records?type=vessel.registered&limit=1000`);
  return new Map(records.map(({ data }) => [data.vesselId, data.code]));
}

const startOf = (batch) => batch.facts.filledAt ?? batch.facts.airStartedAt ?? batch.facts.brewStartedAt ?? '';

function row(batch, vessels, time) {
  const { facts } = batch;
  const began = startOf(batch);
  return h(
    'li',
    {},
    h(
      'a',
      { href: `#batch=${batch.batchId}`, 'data-batch': batch.batchId },
      h(
        'div',
        { class: 'row' },
        h(
          'span',
          {},
          h('span', { class: 'code' }, batch.code),
          ` · ${vessels.get(facts.vesselId) ?? 'vessel not known'}`,
        ),
        h('span', { class: 'faint' }, began === '' ? '' : `${time.day(began)} · `, batch.phase),
      ),
      h('div', { class: 'clocks' }, `brew ${clock(facts, 'brewHours')} · hold ${clock(facts, 'holdHours')}`),
      marks(batch.outcomes),
    ),
  );
}

/** How many of each verdict, worst first; what is not applicable is left to the batch itself. */
export function marks(outcomes) {
  const counted = worstFirst
    .filter((verdict) => verdict !== 'notApplicable')
    .map((verdict) => [verdict, outcomes.filter((one) => one.outcome === verdict).length])
    .filter(([, count]) => count > 0);
  return h(
    'p',
    { class: 'marks' },
    counted.map(([verdict, count]) => mark(verdict, `${count} ${verdict}`)),
  );
}
