import { describe, expect, it } from '@jest/globals';
import { whenText } from '../clock/text.ts';
import { tankWords } from '../tank/words.ts';

const zone = 'America/Chicago';
const now = Date.parse('2026-11-27T15:00:00-06:00');
const at = (text: string): string => whenText(Date.parse(text), zone, 'es', now);

describe('times in Spanish sentences', () => {
  const { es } = tankWords;
  it.each([
    [es.by(at('2026-11-27T18:54:00-06:00')), 'hasta las 18:54'],
    [es.by(at('2026-11-27T01:05:00-06:00')), 'hasta la 01:05'],
    [es.by(at('2026-11-28T06:00:00-06:00')), 'hasta el sáb, 28 de nov 06:00'],
    [es.oxygenLast('6,9 mg/L', at('2026-11-23T15:54:00-06:00')), 'Oxígeno 6,9 mg/L el lun, 23 de nov 15:54'],
    [es.oxygenLast('6,9 mg/L', at('2026-11-27T14:09:00-06:00')), 'Oxígeno 6,9 mg/L a las 14:09'],
    [es.limit_holdMost(at('2026-11-27T19:54:00-06:00')), 'aplicar antes de las 19:54'],
    [es.limit_holdMost(at('2026-11-28T01:54:00-06:00')), 'aplicar antes del sáb, 28 de nov 01:54'],
  ])('%s', (text, expected) => {
    expect(text).toBe(expected);
  });
});
