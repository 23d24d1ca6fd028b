import { afterEach, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { DiskRoom, isShort, roomOf, type Room } from './disk-room.ts';

const gib = 2 ** 30;

describe('room on the disk', () => {
  let said: string[] = [];
  beforeEach(() => {
    said = [];
    jest.spyOn(process, 'emitWarning').mockImplementation((warning) => void said.push(String(warning)));
  });
  afterEach(() => {
    jest.restoreAllMocks();
  });

  it.each([
    ['a tenth and a byte of 100 GiB', { free: 10 * gib + 1, whole: 100 * gib }, false],
    ['less than a tenth of 100 GiB', { free: 10 * gib - 1, whole: 100 * gib }, true],
    ['1 GiB of 4 GiB', { free: gib, whole: 4 * gib }, false],
    ['less than 1 GiB of 4 GiB', { free: gib - 1, whole: 4 * gib }, true],
    ['more than half of a disk of 1 GiB', { free: 0.6 * gib, whole: gib }, false],
    ['less than half of a disk of 1 GiB', { free: 0.4 * gib, whole: gib }, true],
  ])('%s: short %s', (_name, room: Room, short) => {
    expect(isShort(room)).toBe(short);
  });

  it('is read from the system', async () => {
    const { free, whole } = await roomOf('.');
    expect(free).toBeGreaterThan(0);
    expect(whole).toBeGreaterThanOrEqual(free);
  });

  it('is said once a day while it is short, and anew when it became short again', async () => {
    let now = 0;
    let free = gib;
    const disk = new DiskRoom(
      '/data',
      () => Promise.resolve({ free, whole: 100 * gib }),
      () => now,
    );
    await disk.look();
    await disk.look();
    expect(said).toEqual(['1024 MiB of 102400 MiB are left on the disk of /data']);
    now += 86_400_000;
    await disk.look();
    expect(said).toHaveLength(2);
    free = 50 * gib;
    await disk.look();
    free = gib;
    await disk.look();
    expect(said).toHaveLength(3);
  });

  it('a disk that cannot be asked stops nothing', async () => {
    await new DiskRoom('/data', () => Promise.reject(new Error('gone'))).look();
    expect(said).toEqual([]);
  });
});
