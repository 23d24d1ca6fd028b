import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { canonicalBytes } from '@furrowmark/log';
import { Chance } from './faults/chance.ts';
import { Farmhouse, renumbered, size } from './tamper/live-log.ts';
import type { Entry } from './tamper/live-log.ts';
import { tamper, Untouched } from './tamper/random-tampering.ts';

/*
 * Tampering at random with a log as it lies in its database and data folder, one way at a time, put right again each time.
 * TAMPERINGS says how many, TAMPER_SEED where the seeds begin; a failure names its seed.
 */
const count = Number(process.env['TAMPERINGS'] ?? 40);
const first = Number(process.env['TAMPER_SEED'] ?? 1);
const timeout = 60_000 + count * 2_000;

let house: Farmhouse;
beforeAll(async () => {
  house = await Farmhouse.open('tamper');
  await house.disarm();
  await house.owner.query('ALTER TABLE log_head DISABLE TRIGGER ALL');
}, 60_000);
afterAll(() => house.close());

describe('random tampering in the database', () => {
  it(
    'by a thief: each is found, with and without what was kept outside, and never called genuine',
    async () => {
      const log = await house.log();
      const before = await Untouched.of(house.owner, log, house.memory(log.operationId));
      const ways = new Map<string, number>();
      for (let seed = first; seed < first + count; seed += 1) {
        const { what, must } = await tamper(house.owner, log, size, seed);
        ways.set(what.replaceAll(/ .*/g, ''), (ways.get(what.replaceAll(/ .*/g, '')) ?? 0) + 1);
        const verdict = await house.database(log.operationId, ...(seed % 2 === 0 ? ['--against', log.kept] : []));
        if (verdict.code !== (must === 'altered' ? 1 : 4))
          throw new Error(`seed ${seed}: ${what}: exit ${verdict.code}\n${verdict.said}`);
        await before.back();
      }
      // Untouched again, so that each of them was looked at alone.
      expect(await house.database(log.operationId, '--against', log.kept)).toMatchObject({ code: 0 });
      expect(ways.size).toBeGreaterThan(count >= 40 ? 5 : 0);
    },
    timeout,
  );

  it(
    'by the owner who signs anew: never genuine, and found by what was kept outside',
    async () => {
      const log = await house.log();
      const before = await Untouched.of(house.owner, log, house.memory(log.operationId));
      const entries = await house.entries(log.operationId);
      for (let seed = first; seed < first + count; seed += 1) {
        const { what, lines } = rewritten(entries, new Chance(seed));
        await house.rewrite(log.operationId, lines);
        const alone = await house.database(log.operationId);
        const held = await house.database(log.operationId, '--against', log.kept);
        if (alone.code !== 3) throw new Error(`seed ${seed}: ${what}: exit ${alone.code} without\n${alone.said}`);
        if (held.code !== 1) throw new Error(`seed ${seed}: ${what}: exit ${held.code} with\n${held.said}`);
        await before.back();
      }
    },
    timeout,
  );
});

/** The log as an owner would have it who covers the traces. Entry 0 describes the operation, 10 and 11 name documents. */
function rewritten(entries: readonly Entry[], chance: Chance): { what: string; lines: Uint8Array[] } {
  const seq = 1 + chance.below(9);
  const other = 1 + ((seq + chance.below(8)) % 9);
  const entry = entries[seq];
  const second = entries[other];
  if (entry === undefined || second === undefined) throw new Error(`there is no entry ${seq} or ${other}`);
  const fresh = `0197a000-0000-7000-8000-${String(chance.below(1e9)).padStart(12, '0')}`;
  const ways: readonly (readonly [string, () => readonly Entry[]])[] = [
    [
      'when it happened',
      () => entries.with(seq, { ...entry, occurredAt: `2026-05-${10 + chance.below(20)}T06:10:00Z` }),
    ],
    ['who recorded it', () => entries.with(seq, { ...entry, recordedBy: fresh })],
    ['taken out', () => entries.toSpliced(seq, 1)],
    ['put in', () => entries.toSpliced(seq, 0, { ...second, id: fresh })],
    ['exchanged', () => entries.with(seq, second).with(other, entry)],
    ['cut off', () => entries.slice(0, -2 - chance.below(4))],
  ];
  const [what, how] = ways[chance.below(ways.length)] ?? ['', () => entries];
  const changed = how();
  const lines =
    changed.length === entries.length && what !== 'exchanged' ? changed.map(canonicalBytes) : renumbered(changed);
  return { what: `${what} (${seq}, ${other})`, lines };
}
