import { h } from './element.js';
import { bases, mark, wordFor, worstFirst } from './words.js';

/** Outcomes, worst first; those met or not applicable folded away. */
export function verdicts(outcomes) {
  const rank = (one) => worstFirst.indexOf(one.outcome);
  const sorted = outcomes.toSorted((a, b) => rank(a) - rank(b) || severity(a) - severity(b));
  const quiet = (one) => one.outcome === 'met' || one.outcome === 'notApplicable';
  const loud = sorted.filter((one) => !quiet(one));
  const rest = sorted.filter(quiet);
  return [
    loud.length === 0
      ? h('p', {}, 'Nothing is broken, due or unknown.')
      : h('ul', { class: 'verdicts' }, loud.map(verdict)),
    rest.length === 0
      ? null
      : h(
          'details',
          {},
          h('summary', {}, `${rest.length} met or not applicable`),
          h('ul', { class: 'verdicts' }, rest.map(verdict)),
        ),
  ];
}

const severity = (one) => ['critical', 'major', 'minor', 'notice'].indexOf(one.severity);

function verdict(one) {
  return h(
    'li',
    {},
    h(
      'div',
      { class: 'row' },
      h('span', {}, h('span', { class: 'code' }, one.title), h('span', { class: 'faint' }, ` ${one.about.code}`)),
      mark(one.outcome, wordFor(one)),
    ),
    h('p', {}, one.message),
    h('p', { class: 'faint' }, `${bases[one.basis] ?? one.basis}, ${one.severity} · ${one.citation}`),
  );
}
