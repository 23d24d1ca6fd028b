import { describe, expect, it } from '@jest/globals';
import { farm, given, id, seasonOf, type Line } from '../testing/season.ts';
import { recordText } from './describe.ts';
import { tell } from './telling.ts';

const told = (line: Line, language: 'en' | 'es' = 'en'): string => {
  const season = seasonOf(...farm, line);
  const record = season.record(id(`record ${farm.length}`));
  return record === undefined ? '' : recordText(tell(season, { ...given, language }), record);
};

describe('what a record says, in a line', () => {
  it('keeps apart what was typed and the list it stands in: its own commas and full stops are in quotes', () => {
    const cleaned: Line = [
      'vessel.cleaned',
      '04-02 09:00',
      { vesselId: id('tote'), method: 'hot water, brush', contactMinutes: 10, rinsed: true, parts: ['tank', 'lid'] },
    ];
    expect(told(cleaned)).toContain('method “hot water, brush”');
    expect(told(cleaned)).toContain('minutes of contact 10');
  });

  it('puts in brackets what belongs together within it', () => {
    const piled: Line = [
      'pile.measured',
      '04-02 09:00',
      { pileId: id('P'), temperatures: [{ spot: 'north end', value: { value: 134, unit: '[degF]' } }] },
    ];
    expect(told(piled)).toContain('temperatures (at north end, value 134 °F)');
  });

  it('says the figures of a rule book in the reader’s words, with their units', () => {
    const adopted: Line = [
      'ruleBook.adopted',
      '04-02 09:00',
      {
        effectiveFrom: '2026-04-03T00:00:00-04:00',
        entries: [{ ruleId: 'oxygen-checked', parameters: { beforeDrawHours: 3 } }],
        reason: 'closer',
        approvedBy: id('Ines'),
      },
    ];
    expect(told(adopted)).toContain('parameters (last reading before a draw, h 3)');
    expect(told(adopted, 'es')).toContain('parámetros (última lectura antes de extraer, h 3)');
  });

  it('has words for what the produce safety rule makes of a planting', () => {
    const planted: Line = [
      'planting.started',
      '04-06 08:00',
      { plantingId: id('x'), fieldId: id('East'), crop: 'maize', ediblePart: 'grain', produceRule: 'notCovered' },
    ];
    expect(told(planted)).toContain('produce safety rule not covered');
    expect(told(planted, 'es')).toContain('norma de inocuidad no la abarca');
  });
});
