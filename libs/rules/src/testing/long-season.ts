import { gal, lb, ordinary, id, type SeasonBuilder } from './season.ts';

const dayMs = 86_400_000;
const first = Date.parse('2026-02-02T00:00:00Z');

/** The day and time of the n-th batch, four a day. */
const when = (n: number, hours: number): string =>
  new Date(first + Math.floor(n / 4) * dayMs + ((n % 4) * 15 + hours * 60) * 60_000)
    .toISOString()
    .slice(0, 16)
    .replace('T', ' ');

/**
 * A large brewer's season: so many ordinary batches in four tanks, four lots a month, twelve fields, one probe; each batch
 * with oxygen readings and a smell on record. Every thing is used again and again, as in life.
 */
export function longSeason(batches: number): SeasonBuilder {
  const season = ordinary();
  for (let t = 0; t < 4; t++) season.vessel(`Tank ${t}`);
  for (let f = 0; f < 12; f++) season.field(`Field ${f}`).planting(`lettuce ${f}`, `Field ${f}`);
  for (let n = 0; n < batches; n++) {
    const lots = Math.floor(n / 120);
    if (n % 120 === 0) season.lot(`C${lots}`, 'compost', lb(2000)).lot(`M${lots}`, 'molasses', gal(2000));
    const code = `B-${n}`;
    season
      .batch(code, when(n, 4), { vesselId: id(`Tank ${n % 4}`) })
      .filled(when(n, 5), gal(250))
      .airOn(when(n, 5))
      .fed(when(n, 6), `C${lots}`, lb(5))
      .fed(when(n, 6.1), `M${lots}`, gal(1))
      .oxygen(when(n, 12), 7.2, { instrumentId: id('DO-1') })
      .oxygen(when(n, 20), 7, { instrumentId: id('DO-1') })
      .oxygen(when(n, 28), 6.9, { instrumentId: id('DO-1') })
      .checked(when(n, 29))
      .airOff(when(n, 30))
      .applied(`A-${n}`, when(n, 31), when(n, 33), `Field ${n % 12}`)
      .closed(when(n, 34), gal(0));
    season.add('vessel.cleaned', when(n, 35), { vesselId: id(`Tank ${n % 4}`), method: 'rinse', rinsed: true });
    if (n % 40 === 39) season.harvest(`H-${n}`, `Field ${n % 12}`, when(n, 36));
  }
  return season;
}
