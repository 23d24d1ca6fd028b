import { describe, expect, it } from '@jest/globals';
import { fileText } from './fileText.ts';

const bytes = (...values: readonly number[]): Blob => new Blob([new Uint8Array(values)]);

describe('a file as text', () => {
  it('is UTF-8 where it can be', async () => {
    expect(await fileText(new Blob(['código;30 °F']))).toBe('código;30 °F');
  });
  // The Encoding Standard: 0xB0 is ° and 0xF3 is ó in windows-1252; neither stands alone in UTF-8.
  it('is windows-1252 where it cannot be UTF-8, as older spreadsheets write', async () => {
    expect(await fileText(bytes(0x33, 0xb0, 0x46, 0x20, 0xf3))).toBe('3°F ó');
  });
  it('is UTF-16 where a mark says so', async () => {
    expect(await fileText(bytes(0xff, 0xfe, 0x41, 0x00, 0xb0, 0x00))).toBe('A°');
    expect(await fileText(bytes(0xfe, 0xff, 0x00, 0x41))).toBe('A');
  });
  it('is none where it is a spreadsheet program’s own file: a ZIP, or a compound file', async () => {
    expect(await fileText(bytes(0x50, 0x4b, 0x03, 0x04))).toBeNull();
    expect(await fileText(bytes(0xd0, 0xcf, 0x11, 0xe0))).toBeNull();
  });
});
