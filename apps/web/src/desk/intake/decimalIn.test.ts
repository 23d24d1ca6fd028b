import { describe, expect, it } from '@jest/globals';
import { decimalIn } from './decimalIn.ts';

describe('the decimal sign of a table', () => {
  it.each([
    ['Date;Time;DO\n27.11.2026;08:00;7,2\n', ','],
    ['lot\tquantity\nWC-1\t12,5 lb\nWC-2\t1.000 lb\n', ','],
    ['lot;quantity\nWC-1;12.5 lb\n', '.'],
    // A thousand or one: it does not tell.
    ['lot;quantity\nWC-1;1,000 lb\n', '.'],
    ['lot;quantity\nWC-1;40 lb\n', '.'],
    // Both: a person has to say.
    ['lot;quantity\nWC-1;12,5 lb\nWC-2;12.5 lb\n', '.'],
    ['lot,quantity\nWC-1,12 lb\n', '.'],
    ['', '.'],
  ])('%j shows “%s”', (table, sign) => {
    expect(decimalIn(table)).toBe(sign);
  });
});
