import type { WriteStream } from 'node:tty';

const width = 30;

/**
 * How far something is, on one line of the terminal that is written over and over. Where the output goes to a file or
 * another program, nothing is drawn.
 */
export class ProgressBar {
  #shown = -1;

  constructor(
    private readonly label: string,
    private readonly terminal: Pick<WriteStream, 'isTTY' | 'write'> = process.stderr,
  ) {}

  /** From 0 to 1. */
  show(share: number): void {
    const percent = Math.floor(Math.min(1, Math.max(0, share)) * 100);
    if (!this.terminal.isTTY || percent === this.#shown) return;
    this.#shown = percent;
    const full = Math.round((percent / 100) * width);
    this.terminal.write(`\r${this.label} [${'#'.repeat(full)}${'.'.repeat(width - full)}] ${percent} %`);
  }

  /** Takes the line away again. */
  end(): void {
    if (this.#shown >= 0) this.terminal.write('\r\u001b[2K');
    this.#shown = -1;
  }
}
