import { h } from './element.js';

/** Each verdict: its shape and its word. Worst first. */
export const verdicts = {
  broken: ['✕', 'broken'],
  unknown: ['?', 'unknown'],
  due: ['○', 'due'],
  caution: ['◐', 'caution'],
  met: ['●', 'met'],
  notApplicable: ['–', 'not applicable'],
};

export const worstFirst = Object.keys(verdicts);

/** A verdict as shape and word; the colour only repeats it. `word` where the basis asks for other words. */
export function mark(verdict, word) {
  const [shape, name] = verdicts[verdict] ?? ['?', verdict];
  return h('span', { class: `mark mark-${verdict}` }, h('span', { 'aria-hidden': 'true' }, `${shape} `), word ?? name);
}

/** "Broken" in the words that its basis allows: no practice is dressed as a regulation. */
export function wordFor({ outcome, basis }) {
  if (outcome !== 'broken') return undefined;
  if (basis === 'regulation') return 'not met';
  if (basis === 'certifier') return 'not as the certifier asks';
  if (basis === 'guideline') return 'not as the guideline advises';
  return basis === 'ownPlan' ? 'not as your plan says' : 'outside your limit';
}

/** What stands behind a limit. */
export const bases = {
  regulation: 'regulation',
  certifier: "certifier's ruling",
  guideline: 'guideline',
  ownPlan: 'own system plan',
  practice: 'own practice',
};

/** Hours as people say them: 24 h 30. */
export function hours(value) {
  if (value === null || value === undefined) return '–';
  const minutes = Math.round(value * 60);
  const rest = Math.abs(minutes % 60);
  return `${Math.trunc(minutes / 60)} h${rest === 0 ? '' : ` ${String(rest).padStart(2, '0')}`}`;
}

/** An uncertain clock is a range, never a crisp figure. */
export function clock(facts, name) {
  const range = facts[`${name}Range`];
  if (Array.isArray(range) && range[0] !== range[1]) return `${hours(range[0])} to ${hours(range[1])}`;
  return hours(facts[name]);
}

/** Times on the operation's own clock. */
export function times(timeZone) {
  const format = (options) => new Intl.DateTimeFormat('en-US', { timeZone, hourCycle: 'h23', ...options });
  const day = format({ month: 'short', day: 'numeric' });
  const time = format({ hour: '2-digit', minute: '2-digit' });
  return {
    day: (at) => day.format(new Date(at)),
    time: (at) => time.format(new Date(at)),
    both: (at) => `${day.format(new Date(at))}, ${time.format(new Date(at))}`,
  };
}

const units = {
  '[gal_us]': 'gal',
  '[lb_av]': 'lb',
  '[degF]': '°F',
  Cel: '°C',
  '[acr_us]': 'acre',
  '[foz_us]': 'fl oz',
  '[oz_av]': 'oz',
  '[cyd_i]': 'cu yd',
  '{CFU}/(100.mL)': 'CFU/100 mL',
};

/** A quantity as it was written. */
export function quantity(it) {
  const unit = units[it.unit] ?? it.unit;
  if (it.qualifier === 'notDetected') return `not detected (limit ${it.value} ${unit})`;
  if (it.qualifier === 'between') return `between ${it.value} and ${it.high} ${unit}`;
  return `${it.qualifier ?? ''}${it.value} ${unit}`;
}

/** `batch.oxygenMeasured` → "oxygen measured". */
export function typeWords(type) {
  const [thing, what] = type.split('.');
  const said = what.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return thing === 'batch' ? said : `${thing} ${said}`;
}
