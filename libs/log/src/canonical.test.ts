import { describe, expect, it } from '@jest/globals';
import canonicalize from 'canonicalize';
import fc from 'fast-check';
import vectors from '../../../test/checks/log/jcs-rfc8785.json' with { type: 'json' };
import { hex, utf8 } from './bytes.ts';
import { canonicalBytes, canonicalText, isCanonical, maxDepth, NotCanonical, parseCanonical } from './canonical.ts';

// Figures: RFC 8785 (Appendix B, section 3.2.3) and its author's test data; see test/checks/log/README.md.
const parse = (text: string): unknown => JSON.parse(text);
const double = (ieee754: string): number => Buffer.from(ieee754, 'hex').readDoubleBE(0);

describe('canonical JSON (RFC 8785)', () => {
  it.each([...vectors.documents, ...vectors.own_cases_not_published, vectors.sorting])(
    'writes $canonicalText',
    ({ inputText, canonicalText: expected, canonicalHex }) => {
      expect(canonicalText(parse(inputText))).toBe(expected);
      expect(hex(canonicalBytes(parse(inputText)))).toBe(canonicalHex);
      expect(isCanonical(Buffer.from(canonicalHex, 'hex'))).toBe(true);
    },
  );

  it.each(vectors.numbers)('number $ieee754 ($comment)', ({ ieee754, expected, expect: verdict }) => {
    if (verdict === 'accept') expect(canonicalText(double(ieee754))).toBe(expected);
    else expect(() => canonicalText(double(ieee754))).toThrow(NotCanonical);
  });

  it.each(vectors.numbers_extra)('number $ieee754 ($source)', ({ ieee754, expected }) => {
    expect(canonicalText(double(ieee754))).toBe(expected);
  });

  it('writes a member named __proto__, toJSON or constructor like any other', () => {
    expect(canonicalText(parse('{"toJSON":"x","__proto__":{"x":1},"constructor":2,"a":1}'))).toBe(
      '{"__proto__":{"x":1},"a":1,"constructor":2,"toJSON":"x"}',
    );
  });

  it.each<[string, unknown]>([
    ['NaN', NaN],
    ['Infinity', [Infinity]],
    ['the number literal 1e400', parse('{"a":1e400}')],
    ['a lone surrogate in a value', parse('{"a":"\\udead"}')],
    ['a lone surrogate in a name', parse('{"\\ud800":1}')],
    ['undefined', undefined],
    ['an undefined member', { a: undefined, b: 1 }],
    ['BigInt', { a: 1n }],
    ['a symbol', [Symbol('s')]],
    ['a Date', { a: new Date(0) }],
    ['a Map', new Map()],
    ['a typed array', Uint8Array.of(1)],
    ['a function member', { a: () => 1, b: 1 }],
    ['an object with a toJSON function', { toJSON: () => 1 }],
    ['a sparse array', [1, , 2]], // prettier-ignore
    ['nesting without end', parse('['.repeat(maxDepth + 1) + ']'.repeat(maxDepth + 1))],
  ])('refuses %s', (_what, value) => {
    expect(() => canonicalText(value)).toThrow(NotCanonical);
  });

  it('equals an independent implementation on any JSON value', () => {
    const json = fc.jsonValue({ noUnicodeString: false });
    fc.assert(
      fc.property(json, (value) => {
        const text = canonicalText(value);
        expect(text).toBe(canonicalize(value));
        expect(isCanonical(utf8(text))).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  it('does not depend on the order in which members were written', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string({ unit: 'grapheme' }), fc.jsonValue()), (object) => {
        const reversed = Object.fromEntries(Object.entries(object).reverse());
        expect(canonicalText(reversed)).toBe(canonicalText(object));
      }),
    );
  });
});

describe('stored bytes', () => {
  it.each(vectors.stored_bytes_that_must_be_refused)('are refused: $text', ({ hex: stored }) => {
    expect(isCanonical(Buffer.from(stored, 'hex'))).toBe(false);
  });

  it.each([
    ['invalid UTF-8', '22ff22'],
    ['an overlong encoding', '22c0af22'],
    ['a surrogate in UTF-8', '22edb2ad22'],
    ['nothing', ''],
    ['an escaped lone surrogate', hex(utf8('"\\udead"'))],
    ['nesting that would exhaust the stack', hex(utf8('['.repeat(30_000) + ']'.repeat(30_000)))],
  ])('are refused: %s', (_what, stored) => {
    expect(isCanonical(Buffer.from(stored, 'hex'))).toBe(false);
  });

  it('tell look-alike spellings apart: Unicode is not normalised', () => {
    const [composed, decomposed] = ['"\u00e4"', '"a\u0308"'];
    expect(isCanonical(utf8(composed))).toBe(true);
    expect(isCanonical(utf8(decomposed))).toBe(true);
    expect(hex(utf8(composed))).not.toBe(hex(utf8(decomposed)));
  });

  it('give back their value', () => {
    expect(parseCanonical(utf8('{"a":[1,"x"]}'))).toEqual({ value: { a: [1, 'x'] } });
  });
});
