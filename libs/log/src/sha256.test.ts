import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { hex, utf8 } from './bytes.ts';
import { sha256 as inBrowser } from './sha256.browser.ts';
import { sha256 as inNode } from './sha256.node.ts';

describe('SHA-256', () => {
  // FIPS 180-4 examples ("abc" and the empty string).
  it.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ])('of %j is the published one, in the browser too', (text, digest) => {
    expect(hex(inNode(utf8(text)))).toBe(digest);
    expect(hex(inBrowser(utf8(text)))).toBe(digest);
  });

  it('is the same in the browser and on the server', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => expect(hex(inBrowser(bytes))).toBe(hex(inNode(bytes)))),
    );
  });
});
