import { describe, expect, it } from '@jest/globals';
import { ProgressBar } from './progress-bar.ts';

function terminal(isTTY: boolean) {
  const written: string[] = [];
  return { written, isTTY, write: (text: string | Uint8Array) => written.push(String(text)) > 0 };
}

describe('the progress bar', () => {
  it('draws a share once, and takes its line away at the end', () => {
    const screen = terminal(true);
    const bar = new ProgressBar('packet', screen);
    for (const share of [0, 0.5, 0.504, 1]) bar.show(share);
    bar.end();
    expect(screen.written).toEqual([
      `\rpacket [${'.'.repeat(30)}] 0 %`,
      `\rpacket [${'#'.repeat(15)}${'.'.repeat(15)}] 50 %`,
      `\rpacket [${'#'.repeat(30)}] 100 %`,
      '\r\u001b[2K',
    ]);
  });

  it('draws nothing into a file', () => {
    const file = terminal(false);
    const bar = new ProgressBar('packet', file);
    bar.show(0.3);
    bar.end();
    expect(file.written).toEqual([]);
  });
});
