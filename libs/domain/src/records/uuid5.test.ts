import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { v5 } from 'uuid';
import { uuid5, uuidBytes } from './uuid5.ts';

const dns = uuidBytes('6ba7b810-9dad-11d1-80b4-00c04fd430c8');

describe('UUIDs of version 5', () => {
  it('is that of RFC 9562, appendix A.4: www.example.com within DNS', () => {
    expect(uuid5(dns, 'www.example.com')).toBe('2ed6657d-e927-568b-95e1-2665a8aea6a2');
  });
  it('is what the npm library uuid gives, for names of every length about one, two and three blocks', () => {
    for (let length = 0; length < 200; length += 1) {
      const name = 'x'.repeat(length);
      expect(uuid5(dns, name)).toBe(v5(name, dns));
    }
  });
  it('is what the npm library uuid gives, for any well-formed text and namespace', () => {
    fc.assert(
      fc.property(fc.uuid(), fc.string({ unit: 'grapheme', maxLength: 300 }), (namespace, name) => {
        expect(uuid5(uuidBytes(namespace), name)).toBe(v5(name, namespace));
      }),
    );
  });
});
