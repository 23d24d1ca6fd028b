// Licences under which others may use and pass on what is built with them, with no duty beyond naming them.
const free = [
  ...['MIT', 'MIT-0', 'ISC', '0BSD', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', 'Unlicense', 'CC0-1.0'],
  // Blue Oak Model License: as permissive as MIT, approved by the Open Source Initiative.
  'BlueOak-1.0.0',
];
/** Typefaces, which may be embedded in documents. */
const typefaces = ['OFL-1.1'];
/** Programs that only build and test, and are passed on to nobody. */
const toolsOnly = ['MPL-2.0', 'Artistic-2.0', 'Python-2.0', 'WTFPL', 'CC-BY-3.0', 'CC-BY-4.0'];

/** Packages whose manifest names no licence; read in their own files on 2026-11-25. */
const readByHand = {
  busboy: 'MIT',
  streamsearch: 'MIT',
  'png-js': 'MIT',
  ssh2: 'MIT',
  buildcheck: 'MIT',
  'cpu-features': 'MIT',
};

/** Under terms of their own; used by tests alone, and passed on to nobody. */
const testsOnly = ['@lhncbc/ucum-lhc'];

/** What is used under a licence that nobody has looked at: a sentence each. */
export function licenceFaults(lock) {
  const faults = [];
  for (const [place, { license, dev, link, devOptional }] of Object.entries(lock.packages)) {
    if (!place.includes('node_modules/') || link) continue;
    const name = place.slice(place.lastIndexOf('node_modules/') + 'node_modules/'.length);
    const said = license ?? readByHand[name];
    const allowed = [...free, ...typefaces, ...(dev || devOptional ? toolsOnly : [])];
    if (dev && testsOnly.includes(name)) continue;
    if (said === undefined) faults.push(`${name} names no licence`);
    else if (!permits(said, allowed)) faults.push(`${name} is under ${said}`);
  }
  return faults;
}

/** An SPDX expression: of several joined by OR one must do, of those joined by AND each. */
function permits(expression, allowed) {
  return expression
    .replaceAll(/[()]/g, '')
    .split(' OR ')
    .some((either) => either.split(' AND ').every((one) => allowed.includes(one.trim())));
}
