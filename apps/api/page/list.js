import { h } from './element.js';
import { ask } from './session.js';
import { clock, mark, worstFirst } from './words.js';

/** The batches, newest first, each with its vessel, phase, clocks and what stands open about it. */
export async function batchList(path, time) {
  const [{ batches, asOfSeq }, vessels, open] = await Promise.all([
    everyBatch(path),
    vesselCodes(path),
    openFindings(path),
  ]);
  const newest = batches.toSorted((a, b) => (b.from ?? '').localeCompare(a.from ?? ''));
  const rows = newest.map((batch) => row(batch, vessels, open.filter(isAbout(batch)), time));
  const element = h('nav', { 'aria-label': 'Batches' }, h('h2', {}, 'Batches'), h('ul', { class: 'batches' }, rows));
  const choose = (batchId) => {
    for (const link of element.querySelectorAll('a')) {
      if (link.dataset.batch === batchId) link.setAttribute('aria-current', 'true');
      else link.removeAttribute('aria-current');
    }
  };
  return { element, choose, vessels, asOfSeq, count: batches.length };
}

/** What the rules found and nobody has answered yet. */
async function openFindings(path) {
  return (await ask(`${path}/findings?state=open&limit=1000`)).findings;
}

/** Of the batch itself, or of one of its draws: "T-14", "T-14 · North 4". */
const isAbout = (batch) => (finding) =>
  finding.about.id === batch.batchId ||
  (finding.about.kind === 'draw' && finding.about.code.startsWith(`${batch.code} · `));

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

function row(batch, vessels, findings, time) {
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
          ` · ${vessels.get(batch.vesselId) ?? 'vessel not known'}`,
        ),
        h('span', { class: 'faint' }, batch.from === null ? '' : `${time.day(batch.from)} · `, batch.phase),
      ),
      h('div', { class: 'clocks' }, `brew ${clock(batch, 'brewHours')} · hold ${clock(batch, 'holdHours')}`),
      marks(findings),
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
