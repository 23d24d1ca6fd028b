import { describe, expect, it } from '@jest/globals';
import { dimensionOf } from '../quantity/index.ts';
import { nearest } from './nearest.ts';
import { proposedCodes, unitMeant, unitRemedy } from './unitWords.ts';

describe('units as people write them', () => {
  it.each(proposedCodes())('the proposed code %s is one that the converter knows', (code) => {
    expect(dimensionOf(code)).not.toBeNull();
  });
  it('an ounce is of weight or of volume, by what is measured', () => {
    expect(unitRemedy('oz', ['mass', 'volume', 'count'])).toContain('[oz_av]');
    expect(unitRemedy('oz', ['volume'])).toContain('[foz_us]');
  });
  it('a spoon is of volume, though its code stands on no list', () => {
    expect(unitRemedy('tbsp', ['mass', 'volume', 'count'])).toMatch(/: use the UCUM code \[tbs_us\]$/);
    expect(unitRemedy('tbsp', ['mass'])).toMatch(/such as \[lb_av\]/);
  });
  it('a word for something else gets the list, not a wrong proposal', () => {
    expect(unitRemedy('acre', ['volume'])).toMatch(/such as \[gal_us\], .*L/);
  });
  it('CFU per 100 mL as laboratories print it', () => {
    expect(unitRemedy('CFU/100mL', null)).toContain('{CFU}/(100.mL)');
  });
});

describe('the unit that was meant', () => {
  it.each([
    ['lbs', 'mass', '[lb_av]'],
    ['°F', 'temperature', '[degF]'],
    ['[gal_us]', 'volume', '[gal_us]'],
    ['ha', 'area', 'har'],
    ['mg/l', 'concentration', 'mg/L'],
    ['oz', 'volume', '[foz_us]'],
    ['oz', 'mass', '[oz_av]'],
    ['ppm', 'concentration', 'mg/L'],
    // UCUM counts it as a plain number; meters for water show it, and a record takes it as a concentration.
    ['[ppm]', 'concentration', '[ppm]'],
    // Codes that are not proposed, but measure what is wanted.
    ['tbsp', 'volume', '[tbs_us]'],
    ['teaspoons', 'volume', '[tsp_us]'],
  ] as const)('%s as %s is %s', (written, dimension, code) => {
    const meant = unitMeant(written, [dimension]);
    // Two spellings of the litre are the same unit.
    expect(meant?.toLowerCase()).toBe(code.toLowerCase());
  });
  it('is none where the word measures something else', () => {
    expect(unitMeant('acre', ['volume'])).toBeNull();
    expect(unitMeant('bags', ['mass', 'volume', 'count'])).toBeNull();
  });
});

describe('the word that was meant', () => {
  it('is near in letters, whatever the case', () => {
    expect(nearest('foliage', ['foliar', 'soilDrench'])).toBeNull();
    expect(nearest('SOILDRENCH', ['foliar', 'soilDrench'])).toBe('soilDrench');
    expect(nearest('soildrnch', ['foliar', 'soilDrench'])).toBe('soilDrench');
    expect(nearest('volume'.repeat(20), ['volume'])).toBeNull();
  });
});
