import { h } from './element.js';
import { quantity, typeWords } from './words.js';

/** Every record of the batch; what was amended or struck stays to be seen, struck through. */
export function timeline(records, time) {
  return h(
    'div',
    { class: 'wide', tabindex: '0', role: 'region', 'aria-label': 'Records of the batch' },
    h(
      'table',
      {},
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          ['When', 'What', 'As recorded', 'Entry'].map((text) => h('th', { scope: 'col' }, text)),
        ),
      ),
      h(
        'tbody',
        {},
        records.map((record) => line(record, time)),
      ),
    ),
  );
}

function line(record, time) {
  const struck = record.state === 'struck';
  const says = sentence(record.data);
  const before = (record.history ?? []).filter((step) => step.kind === 'original' && record.state === 'amended');
  return h(
    'tr',
    {},
    h('td', {}, time.both(record.occurredAt), record.plusMinusMinutes ? ` ± ${record.plusMinusMinutes} min` : null),
    h('td', {}, typeWords(record.type), record.state === 'current' ? null : h('div', { class: 'faint' }, record.state)),
    h(
      'td',
      {},
      struck ? h('s', {}, says) : says,
      before
        .map((step) => [' ', h('s', {}, `${time.both(step.occurredAt)} ${sentence(step.data ?? {})}`.trim())])
        .flat(),
    ),
    h('td', { class: 'faint' }, `${record.seq}, ${time.both(record.recordedAt)}`),
  );
}

/** The record's own members in words; ids say nothing to a reader. */
function sentence(data) {
  return Object.entries(data)
    .filter(([name]) => !/Ids?$|^into$|At$|^applicator$/.test(name))
    .map(([name, value]) => member(name, value))
    .filter((text) => text !== '')
    .join(' · ');
}

function member(name, value) {
  if (value === null || value === undefined) return '';
  const words = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  if (Array.isArray(value))
    return value.every((one) => typeof one === 'string') ? `${words} ${value.join(', ')}` : `${value.length} ${words}`;
  if (typeof value === 'object') return 'unit' in value ? `${words} ${quantity(value)}` : '';
  if (typeof value === 'boolean') return value ? words : `not ${words}`;
  return ['code', 'kind', 'method', 'cause', 'reason', 'note', 'statement'].includes(name)
    ? String(value)
    : `${words} ${value}`;
}
