import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import {
  canonicalBytes,
  cosignedMessage,
  leafHash,
  parseCanonical,
  parseCheckpointText,
  signCheckpoint,
  signerFromSeed,
  tlogProofText,
  utf8,
  verifierKey,
  verifierKeyText,
  type Signer,
} from '@furrowmark/log';
import { run } from '@furrowmark/verify';
import { Chance } from './faults/chance.ts';
import { python } from './log-outside/python.ts';
import {
  changed,
  checkpointOver,
  entries,
  entry,
  label,
  letter,
  linesFrom,
  publish,
  publishBytes,
  recordedAt,
  renumbered,
  sha256,
  signer,
  strangerSigner,
  withEntries,
} from './tamper/quillfen-log.ts';
import type { Entry, Files } from './tamper/quillfen-log.ts';

/*
 * The outside check of docs/log-format.md: a verifier in Python, written from that page with nothing but the standard
 * library (log-outside/verify.py), looks at the same archives. What each verdict must be stands here; ours must be the
 * same. Debian: python3.
 */
const size = 24;
const log = entries(size);
const honest = publish(log);
const pinned = ['--key', verifierKeyText(signer.key)];
let folder = '';
let kept: string[] = [];
let made = 0;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'furrowmark-python-'));
  kept = [...pinned, '--against', file(checkpointOver(log.slice(0, 18).map(canonicalBytes)))];
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(content: string | Uint8Array): string {
  const path = join(folder, `kept-${++made}`);
  writeFileSync(path, content);
  return path;
}

function unpacked(files: Files): string {
  const path = join(folder, `archive-${++made}`);
  for (const [name, content] of files) {
    mkdirSync(dirname(join(path, name)), { recursive: true });
    writeFileSync(join(path, name), content);
  }
  return path;
}

const edited = (seq: number, change: Partial<Entry>): Entry[] =>
  log.map((each) => (each.seq === seq ? { ...each, ...change } : each));
const raised = { data: { depth: 'dépôt', dissolvedOxygen: { unit: 'mg/L', value: 9.9 } } };
const without = (seq: number): Entry[] => log.filter((each) => each.seq !== seq);
const swapped = log.with(7, entry(8)).with(8, entry(7));
const inserted = log.toSpliced(7, 0, { ...entry(7), id: '0197a000-0000-7000-8000-000000777777' });
const text = (name: string): string => Buffer.from(honest.get(name) ?? []).toString('utf8');
const letterName = `documents/${sha256(letter).toString('hex')}`;
const labelName = `documents/${sha256(label).toString('hex')}`;
const lined = (change: (line: string) => string): Uint8Array[] =>
  log.map(canonicalBytes).map((line, seq) => (seq === 7 ? utf8(change(Buffer.from(line).toString('utf8'))) : line));
const elsewhere = '0197a000-0000-7000-8000-00000000ffff';
const some = log.filter(({ seq }) => seq % 3 === 0);
/** A part: some of the entries, and of the documents those that they name. */
const partial = { 'manifest.json': utf8('{"partial":true}'), [letterName]: null };
const otherLog: Signer = {
  ...strangerSigner,
  key: { ...strangerSigner.key, name: `furrowmark/${elsewhere}` },
};
const handover = edited(10, {
  type: 'key.replaced',
  data: { previousKey: verifierKeyText(signer.key), key: verifierKeyText(strangerSigner.key), reason: 'yearly change' },
});
const handedOver = publish(handover, strangerSigner);
const oldOver = (count: number): Uint8Array => utf8(checkpointOver(handover.slice(0, count).map(canonicalBytes)));

/** What the page says of it: without anything kept outside (but the key), and with the checkpoint of 18 entries. */
const cases: readonly (readonly [name: string, files: Files, alone: number, witnessed: number])[] = [
  ['an honest log', honest, 3, 0],
  ['1: an entry edited', withEntries(honest, edited(7, raised)), 1, 1],
  ['1: and signed anew', publish(edited(7, raised)), 3, 1],
  ['1: after what was kept, and signed anew', publish(edited(20, raised)), 3, 0],
  ['3: an entry taken out', withEntries(honest, without(7)), 1, 1],
  ['3: and signed anew', publish(without(7)), 1, 1],
  ['4: taken out, renumbered', withEntries(honest, renumbered(without(7))), 1, 1],
  ['4: and signed anew', publish(renumbered(without(7))), 3, 1],
  ['5: two exchanged', withEntries(honest, swapped), 1, 1],
  ['5: renumbered and signed anew', publish(renumbered(swapped)), 3, 1],
  ['6: one put in', withEntries(honest, inserted), 1, 1],
  ['6: renumbered and signed anew', publish(renumbered(inserted)), 3, 1],
  ['7: long ago', publish([...log, { ...entry(size), occurredAt: '2026-05-01T08:00:00-05:00' }]), 3, 0],
  ['8: a clock set back', publish(edited(7, { recordedAt: new Date(recordedAt(5)).toISOString() })), 1, 1],
  ['9: a clock set ahead', publish(edited(23, { recordedAt: '2101-01-01T00:00:00Z' })), 1, 1],
  ['10: the end cut off', withEntries(honest, log.slice(0, 12)), 1, 1],
  ['10: and signed anew', publish(log.slice(0, 12)), 3, 1],
  ['13: another key', publish(log, strangerSigner), 1, 1],
  ['14: another log, the same key', publish(log.map((each) => ({ ...each, version: 2 }))), 3, 1],
  ['15: leaf hashes edited', changed(honest, { 'leaf-hashes': Buffer.alloc(size * 32, 1) }), 1, 1],
  ['16: the size edited', changed(honest, { checkpoint: utf8(text('checkpoint').replace('\n24\n', '\n23\n')) }), 1, 1],
  ['17: no signature', changed(honest, { checkpoint: utf8(`${text('checkpoint').split('\n\n')[0]}\n`) }), 1, 1],
  ['17: no checkpoint', changed(honest, { checkpoint: null }), 1, 1],
  ['18: a document changed', changed(honest, { [letterName]: utf8('a letter') }), 1, 1],
  ['19: a document removed', changed(honest, { [letterName]: null }), 4, 4],
  ['19: two exchanged', changed(honest, { [letterName]: label, [labelName]: letter }), 1, 1],
  ['19: one put in', changed(honest, { 'documents/00': utf8('x') }), 1, 1],
  ['20: a member twice', publishBytes(lined((line) => line.replace('{', '{"data":{},'))), 1, 1],
  ['20: beyond 2^53', publishBytes(lined((line) => line.replace('"version":1', '"version":9007199254740993'))), 1, 1],
  ['20: 1.0', publishBytes(lined((line) => line.replace('"version":1', '"version":1.0'))), 1, 1],
  ['20: a byte order mark', publishBytes(lined((line) => `\ufeff${line}`)), 1, 1],
  ['20: another escape', publishBytes(lined((line) => line.replace('mg/L', 'mg\\/L'))), 1, 1],
  ['21: a look-alike', publish(edited(7, { data: { depth: 'dépôt'.normalize('NFD') } })), 3, 1],
  ['23: an entry of another log', publish(edited(7, { operationId: elsewhere })), 1, 1],
  [
    '23: another log',
    publish(
      log.map((each) => ({ ...each, operationId: elsewhere })),
      otherLog,
    ),
    1,
    1,
  ],
  ['24: some left out', withEntries(honest, some), 1, 1],
  ['24: and labelled a part', changed(withEntries(honest, some), partial), 3, 0],
  [
    '24: a part, one of it edited',
    changed(
      withEntries(
        honest,
        some.map((each) => (each.seq === 12 ? { ...each, ...raised } : each)),
      ),
      partial,
    ),
    1,
    1,
  ],
  [
    'a seal opened otherwise',
    changed(honest, { 'openings.ndjson': utf8(text('openings.ndjson').replace('Ines', 'Inez')) }),
    1,
    1,
  ],
  ['seals withheld', changed(honest, { 'openings.ndjson': null }), 3, 0],
  ['a key handed over', changed(handedOver, { 'checkpoints/11': oldOver(11) }), 3, 1],
  ['a key that nobody handed over to', changed(handedOver, { 'checkpoints/10': oldOver(10) }), 1, 1],
];

describe('the verifier written from the page', () => {
  it.each(cases)('%s', async (_name, files, alone, witnessed) => {
    const path = unpacked(files);
    for (const [args, code] of [
      [pinned, alone],
      [kept, witnessed],
    ] as const) {
      const theirs = python(path, args);
      if (theirs.code !== code) throw new Error(`expected ${code}, got ${theirs.code}: ${theirs.said}`);
      expect((await run([path, ...args], Date.now())).code).toBe(code);
    }
  });

  it('a printed size and root, a kept proof, a date', async () => {
    const root = checkpointOver(log.slice(0, 10).map(canonicalBytes)).split('\n')[2] ?? '';
    const two = log.slice(0, 2).map(canonicalBytes);
    const slip = (index: number): string =>
      file(tlogProofText({ index, path: two.slice(0, 1).map(leafHash), checkpoint: checkpointOver(two) }));
    const path = unpacked(honest);
    const early = file(checkpointOver(log.map(canonicalBytes)));
    for (const [args, code] of [
      [['--against', `10:${root}`], 0],
      [['--against', `11:${root}`], 1],
      [['--against', slip(1)], 0],
      [['--against', slip(0)], 1],
      [['--against', early, '--dated', '2026-06-03'], 0],
      [['--against', early, '--dated', '2026-05-20'], 1],
    ] as const) {
      const theirs = python(path, args);
      if (theirs.code !== code)
        throw new Error(`${args.join(' ')}: expected ${code}, got ${theirs.code}: ${theirs.said}`);
      expect((await run([path, ...args], Date.now())).code).toBe(code);
    }
  });

  it('a witness’s signature under the log’s own checkpoint stands for one that was kept, with its time', async () => {
    const plain = signerFromSeed('witness.example', new Uint8Array(32).fill(31));
    const made = verifierKey('witness.example', plain.key.publicKey, 'cosignature');
    if (!made.ok) throw new Error(made.why);
    for (const [hours, code] of [
      [size, 0],
      [-5, 1],
    ] as const) {
      const seconds = recordedAt(hours) / 1000;
      const eightBytes = new Uint8Array(8);
      new DataView(eightBytes.buffer).setBigUint64(0, BigInt(seconds));
      const sign = (text: Uint8Array): Uint8Array =>
        Buffer.concat([eightBytes, plain.sign(cosignedMessage(Buffer.from(text).toString('utf8'), seconds))]);
      const own = parseCheckpointText(text('checkpoint').split('\n\n')[0] + '\n');
      if (!own.ok) throw new Error(own.why);
      const checkpoint = signCheckpoint(own.value, [signer, { key: made.value, sign }]);
      const path = unpacked(changed(honest, { checkpoint: utf8(checkpoint) }));
      const args = [...pinned, '--key', verifierKeyText(made.value)];
      const theirs = python(path, args);
      if (theirs.code !== code) throw new Error(`${hours}: expected ${code}, got ${theirs.code}: ${theirs.said}`);
      expect((await run([path, ...args], Date.now())).code).toBe(code);
      expect(python(path, pinned).code).toBe(3);
    }
  });

  it('one byte changed anywhere: both say the same', async () => {
    const chance = new Chance(20261125);
    const files = [...honest].filter(([name]) => name !== 'manifest.json');
    for (let n = 0; n < 60; n += 1) {
      const [name, content] = files[chance.below(files.length)] ?? ['', new Uint8Array(1)];
      const at = chance.below(content.length);
      const mask = 1 + chance.below(255);
      const path = unpacked(changed(honest, { [name]: content.map((byte, i) => (i === at ? byte ^ mask : byte)) }));
      const [ours, theirs] = [await run([path, ...kept], Date.now()), python(path, kept)];
      if (ours.code !== theirs.code)
        throw new Error(`byte ${at} of ${name}: ours ${ours.code}, theirs ${theirs.code}: ${theirs.said}`);
      rmSync(path, { recursive: true });
    }
  }, 120_000);

  it('knows canonical JSON as we do, every kind of number included', () => {
    // RFC 8785, appendix B: bits of a double and its text.
    const numbers = ['0', '5e-324', '1.7976931348623157e+308', '9007199254740992', '295147905179352830000', '1e+23'];
    const more = ['9.999999999999997e+22', '999999999999999900000', '1e+21', '0.000001', '1e-7', '333333333.3333332'];
    const lines = [...numbers, ...more, '-1.5', '100', '0.1'].map((number) =>
      utf8(`{"n":${number},"é":"\\u0001\\n/"}`),
    );
    for (const line of lines) expect(parseCanonical(line)).not.toBeNull();
    const script = `
import sys
sys.path.insert(0, sys.argv[1])
from rfc8785 import parsed
for line in sys.stdin.buffer.read().split(b"\\n")[:-1]: parsed(line)
for line in (b'{"n":1.0}', b'{"n":1E3}', b'{"n":-0}', b'{"n":10e20}', b'{"b":1,"a":2}', b'{"n":NaN}', b'{"n":"\\\\u00e9"}'):
    try: parsed(line)
    except (ValueError, ZeroDivisionError): continue
    sys.exit("taken: %r" % line)
`;
    const where = new URL('log-outside', import.meta.url).pathname;
    const { status, stderr } = spawnSync('/usr/bin/python3', ['-B', '-c', script, where], {
      input: Buffer.from(linesFrom(lines)),
      encoding: 'utf8',
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  });
});
