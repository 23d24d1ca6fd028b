import { describe, expect, it } from '@jest/globals';
import practice from '../../../test/checks/practice.json' with { type: 'json' };
import { ruleById } from './index.ts';
import { gal, ordinary } from './testing/season.ts';
import { drawOutcomes } from './testing/verdicts.ts';

/** Figures of a fact of the trade (common practice, no source), as the list of facts has them. */
function figures(name: string): number[] {
  const found = practice.facts.find(({ fact }) => fact === name);
  if (found === undefined) throw new Error(`no fact ${name}`);
  return [...found.figure.matchAll(/\d+/g)].map(([figure]) => Number(figure));
}
const builtIn = (ruleId: string, parameter: string): number | undefined =>
  ruleById(ruleId)?.parameters.get(parameter)?.byDefault;

describe('the built-in limits are those that the trade goes by (common practice, no source)', () => {
  it('oxygen at or above 6 mg/L until applied', () => {
    expect([builtIn('oxygen-minimum', 'minimumMgPerL')]).toEqual(figures('dissolved oxygen kept at or above'));
  });
  it('chlorinated water aerated for 15 to 20 min before the ingredients', () => {
    expect([builtIn('chlorine-dissipated', 'limitMinutes'), builtIn('chlorine-dissipated', 'advisedMinutes')]).toEqual(
      figures('aerate chlorinated water before adding ingredients'),
    );
  });
  it('brewed for 24 h', () => {
    expect([builtIn('brew-minimum', 'advisedHours')]).toEqual(figures('brew'));
  });
  it('applied within 6 to 8 h after the air went off', () => {
    expect([builtIn('hold-maximum', 'advisedHours'), builtIn('hold-maximum', 'limitHours')]).toEqual(
      figures('apply within, after air off'),
    );
  });
  it('aerated until used up: two loads from a tank that is never without air are held from their own draw on', () => {
    expect(practice.facts.map(({ fact }) => fact)).toContain('aerate until used up');
    const season = ordinary();
    season
      .batch('T-14')
      .filled('06-02 05:00', gal(250))
      .airOn('06-02 05:00')
      .fed('06-02 06:00', 'C-1')
      .applied('A-1', '06-03 07:00', '06-03 09:00', 'North 4', gal(100))
      .applied('A-2', '06-03 17:00', '06-03 19:00', 'North 4', gal(100))
      .airOff('06-03 20:00');
    // 12 h lie between the first draw and the end of the second application; each load was held for 2 h.
    expect(drawOutcomes(season.season(), 'hold-maximum', 'T-14').map(({ figures: [held] }) => held?.value)).toEqual([
      2, 2,
    ]);
  });
});
