import { statfs } from 'node:fs/promises';

/** Bytes of the disk that a folder lies on: what may still be written by anybody but root, and all of them. */
export interface Room {
  readonly free: number;
  readonly whole: number;
}

/** Below a tenth or 1 GiB, whichever is more (but never more than half of a small disk), somebody should make room. */
export const isShort = ({ free, whole }: Room): boolean => free < Math.min(Math.max(whole / 10, 2 ** 30), whole / 2);

export async function roomOf(folder: string): Promise<Room> {
  const { bavail, blocks, bsize } = await statfs(folder);
  return { free: bavail * bsize, whole: blocks * bsize };
}

const quarterHour = 900_000;

/** Looks every quarter of an hour how much room the data folder has, and says it in time: once, and again a day later. */
export class DiskRoom {
  #timer: NodeJS.Timeout | null = null;
  #said = -Infinity;

  constructor(
    private readonly folder: string,
    private readonly read: (folder: string) => Promise<Room> = roomOf,
    private readonly now: () => number = Date.now,
  ) {}

  /** What there is now. */
  room(): Promise<Room> {
    return this.read(this.folder);
  }

  start(): void {
    this.#timer = setInterval(() => void this.look(), quarterHour).unref();
    void this.look();
  }

  close(): void {
    if (this.#timer !== null) clearInterval(this.#timer);
  }

  /** A disk that cannot be asked is no reason to stop anything. */
  async look(): Promise<void> {
    const room = await this.read(this.folder).catch(() => null);
    if (room === null || !isShort(room)) {
      this.#said = -Infinity;
      return;
    }
    if (this.now() - this.#said < 86_400_000) return;
    this.#said = this.now();
    const mib = (bytes: number): string => `${Math.floor(bytes / 2 ** 20)} MiB`;
    process.emitWarning(`${mib(room.free)} of ${mib(room.whole)} are left on the disk of ${this.folder}`, {
      code: 'FURROWMARK_DISK',
    });
  }
}
