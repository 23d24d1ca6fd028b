import { describe, expect, it } from '@jest/globals';
import { decoded } from './decoded.ts';

describe('a file as a spreadsheet saved it', () => {
  it.each([
    ['UTF-8', [0x4d, 0xc3, 0xb6], 'utf-8'],
    ['UTF-8 with a mark', [0xef, 0xbb, 0xbf, 0x4d, 0xc3, 0xb6], 'utf-8'],
    ['UTF-16 little end first', [0xff, 0xfe, 0x4d, 0x00, 0xf6, 0x00], 'utf-16le'],
    ['UTF-16 big end first', [0xfe, 0xff, 0x00, 0x4d, 0x00, 0xf6], 'utf-16be'],
    ['windows-1252', [0x4d, 0xf6], 'windows-1252'],
  ])('in %s is read as Mö', (_, bytes, encoding) => {
    expect(decoded(Uint8Array.from(bytes))).toEqual({ text: 'Mö', encoding });
  });
});
