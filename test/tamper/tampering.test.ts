import { describe, expect, it } from '@jest/globals';
import { canonicalBytes, leafHash, parseVerifierKey, utf8, verifierKeyText } from '@furrowmark/log';
import type { Evidence, Fault, VerifierKey } from '@furrowmark/log';
import { exitCodeOf, exitCodes, reportLines, verifyArchive } from '@furrowmark/verify';
import type { ArchiveReport } from '@furrowmark/verify';
import {
  changed,
  checkpointOver,
  entries,
  entry,
  inMemory,
  label,
  letter,
  linesFrom,
  now,
  publish,
  publishBytes,
  recordedAt,
  renumbered,
  sha256,
  signer,
  strangerSigner,
  withEntries,
} from './quillfen-log.ts';
import type { Entry, Files } from './quillfen-log.ts';

/*
 * Every way of tampering with a log that we could think of: by someone with the database but not the signing key, and
 * by the owner, who has both and can sign a rewritten log anew. What the owner does can only be found by what was kept
 * outside; without it the verdict must be "self-consistent", never "genuine".
 */
const size = 24;
const witnessed = 18;
const log = entries(size);
const honest = publish(log);
const witnessedOn = { earliest: recordedAt(witnessed) - 1, latest: recordedAt(witnessed) };

/** The checkpoint of 18 entries that the certifier kept. */
const kept: Evidence = {
  label: 'the certifier’s copy',
  outside: true,
  statement: checkpointOver(log.slice(0, witnessed).map(canonicalBytes)),
  seen: witnessedOn,
};

interface Reader {
  readonly keys?: readonly VerifierKey[];
  readonly kept?: readonly Evidence[];
  readonly at?: number;
}
const pinned: Reader = { keys: [signer.key] };
const witness: Reader = { keys: [signer.key], kept: [kept] };

const check = (files: Files, { keys = [], kept: outside = [], at = now }: Reader = pinned): Promise<ArchiveReport> =>
  verifyArchive(inMemory(files), { keys, kept: outside, now: at });

const has = ({ log: { faults } }: ArchiveReport, kind: Fault['kind'], seq?: number | null): boolean =>
  faults.some((fault) => fault.kind === kind && (seq === undefined || fault.seq === seq));

/** The log with entry `seq` changed. */
const edited = (seq: number, change: Partial<Entry>): Entry[] =>
  log.map((each) => (each.seq === seq ? { ...each, ...change } : each));

const raised = { data: { depth: 'dépôt', dissolvedOxygen: { unit: 'mg/L', value: 9.9 } } };
const without = (seq: number): Entry[] => log.filter((each) => each.seq !== seq);
const swapped = (a: number, b: number): Entry[] =>
  log.map((each) => (each.seq === a ? entry(b) : each.seq === b ? entry(a) : each));
const inserted = (at: number): Entry[] => [
  ...log.slice(0, at),
  { ...entry(at), id: '0197a000-0000-7000-8000-000000777777' },
  ...log.slice(at),
];

/** The owner's rewritten log: fits together by itself, and is found only by what was kept outside. */
async function expectFoundOnlyFromOutside(files: Files): Promise<ArchiveReport> {
  for (const reader of [pinned, {}]) {
    const report = await check(files, reader);
    expect(report.log.faults).toEqual([]);
    expect(report.log.verdict).toBe('self-consistent');
    expect(reportLines(report).join('\n')).toMatch(/SELF-CONSISTENT, BUT NOT WITNESSED/);
    expect(reportLines(report).join('\n')).not.toMatch(/GENUINE/);
  }
  for (const reader of [witness, { kept: [kept] }]) {
    const report = await check(files, reader);
    expect(report.log.verdict).toBe('altered');
    expect(exitCodeOf(report)).toBe(exitCodes.altered);
  }
  return check(files, witness);
}

describe('an honest log', () => {
  it('is genuine up to the size that the certifier kept, and says when', async () => {
    const report = await check(honest, witness);
    expect(report.log).toMatchObject({
      verdict: 'genuine',
      genuineUpTo: witnessed,
      witnessedAt: witnessedOn,
      faults: [],
      entries: size,
    });
    expect(reportLines(report)).toContain('GENUINE UP TO SIZE 18, WITNESSED 2026-06-02T05:00:00Z');
    expect(reportLines(report)).toContain('The 6 entries after that are self-consistent, but not witnessed.');
    expect(exitCodeOf(report)).toBe(exitCodes.genuine);
    expect(report.seals).toEqual({ opened: 1, withheld: 1, altered: [] });
    expect(report.documents).toMatchObject({ matching: 2, missing: [], altered: [], unnamed: [] });
  });

  it('is self-consistent, no more, to a reader who kept nothing', async () => {
    const report = await check(honest, {});
    expect(report.log.verdict).toBe('self-consistent');
    expect(reportLines(report).join('\n')).toMatch(/read from the archive itself, which proves nothing/);
    expect(exitCodeOf(report)).toBe(exitCodes.notWitnessed);
  });

  it('is genuine to a reader who has only a printed size and root', async () => {
    const tree = checkpointOver(log.slice(0, 10).map(canonicalBytes)).split('\n');
    const root = Buffer.from(tree[2] ?? '', 'base64');
    const report = await check(honest, { kept: [{ label: 'page 3', outside: true, statement: { size: 10, root } }] });
    expect(report.log).toMatchObject({ verdict: 'genuine', genuineUpTo: 10, witnessedAt: null });
  });

  it('is genuine when empty entries lists are compared with nothing: a witness of size 0 shows nothing', async () => {
    const none: Evidence = { label: 'empty', outside: true, statement: checkpointOver([]) };
    expect((await check(honest, { ...pinned, kept: [none] })).log.verdict).toBe('self-consistent');
  });
});

describe('1 · an entry is edited', () => {
  it('in the database: the very entry is named', async () => {
    const report = await check(withEntries(honest, edited(7, raised)));
    expect(report.log.verdict).toBe('altered');
    expect(has(report, 'altered', 7)).toBe(true);
    expect(report.log.faults.filter(({ kind }) => kind === 'altered')).toHaveLength(1);
  });

  it('and signed anew by the owner', async () => {
    const report = await expectFoundOnlyFromOutside(publish(edited(7, raised)));
    expect(has(report, 'root', 0)).toBe(true);
  });

  it('and signed anew, with two checkpoints kept: the stretch between them is named', async () => {
    const earlier: Evidence = {
      label: 'May',
      outside: true,
      statement: checkpointOver(log.slice(0, 6).map(canonicalBytes)),
    };
    const report = await check(publish(edited(7, raised)), { ...pinned, kept: [earlier, kept] });
    expect(report.log.faults).toMatchObject([{ kind: 'root', seq: 6, before: 18 }]);
  });

  it('and signed anew, after the last checkpoint that anyone kept: this window nobody can close', async () => {
    expect((await check(publish(edited(20, raised)), witness)).log).toMatchObject({
      verdict: 'genuine',
      genuineUpTo: 18,
    });
  });
});

describe('3, 4 · an entry is taken out', () => {
  it('in the database: the missing one is named', async () => {
    const report = await check(withEntries(honest, without(7)));
    expect(has(report, 'missing', 7)).toBe(true);
    expect(has(report, 'sequence', 7)).toBe(true);
  });

  it('and signed anew: the numbers inside the entries have a gap, seen without any witness', async () => {
    const report = await check(publish(without(7)), {});
    expect(report.log.verdict).toBe('altered');
    expect(has(report, 'sequence', 7)).toBe(true);
  });

  it('and the rest renumbered, in the database', async () => {
    const report = await check(withEntries(honest, renumbered(without(7))));
    expect(has(report, 'altered', 7)).toBe(true);
    expect(has(report, 'shorter', 23)).toBe(true);
  });

  it('and the rest renumbered and signed anew', async () => {
    await expectFoundOnlyFromOutside(publish(renumbered(without(7))));
  });
});

describe('5 · two entries change places', () => {
  it('in the database', async () => {
    const report = await check(withEntries(honest, swapped(7, 8)));
    expect(has(report, 'moved', 7)).toBe(true);
    expect(has(report, 'sequence', 7) && has(report, 'sequence', 8)).toBe(true);
  });

  it('renumbered and signed anew', async () => {
    await expectFoundOnlyFromOutside(publish(renumbered(swapped(7, 8))));
  });
});

describe('6 · an entry is put in', () => {
  it('in the database', async () => {
    const report = await check(withEntries(honest, inserted(7)));
    expect(has(report, 'added', 7)).toBe(true);
    expect(has(report, 'uncovered', 24)).toBe(true);
  });

  it('renumbered and signed anew', async () => {
    await expectFoundOnlyFromOutside(publish(renumbered(inserted(7))));
  });
});

describe('7 · an event of long ago is recorded now', () => {
  const late = [...log, { ...entry(size), occurredAt: '2026-05-01T08:00:00-05:00' }];

  it('is a valid log; the entry is listed with its delay, and lies after what the witness saw', async () => {
    const report = await check(publish(late), witness);
    expect(report.log).toMatchObject({ verdict: 'genuine', genuineUpTo: 18, faults: [] });
    // Recorded 2026-06-02T11:00Z, said to have happened 2026-05-01T13:00Z: 31 days 22 hours.
    expect(report.late).toEqual([{ seq: 24, type: 'batch.oxygenMeasured', hours: 766 }]);
    expect(reportLines(report)).toContain('  - entry 24 (batch.oxygenMeasured): 31.9 days');
  });
});

describe('8 · the clock is set back', () => {
  const back = (time: number): Entry[] => [...log, { ...entry(size), recordedAt: new Date(time).toISOString() }];

  it('behind the entry before: seen without any witness', async () => {
    const report = await check(publish(back(recordedAt(size - 2))), {});
    expect(report.log.verdict).toBe('altered');
    expect(has(report, 'time', size)).toBe(true);
  });

  it('not behind it, but long before a checkpoint was seen that lacks the entry', async () => {
    const june: Evidence = { label: 'June', outside: true, statement: checkpointOver(log.map(canonicalBytes)) };
    const seen = { earliest: recordedAt(size) + 10 * 86_400_000, latest: recordedAt(size) + 11 * 86_400_000 };
    const files = publish(back(recordedAt(size)));
    expect((await check(files)).log.verdict).toBe('self-consistent');
    expect((await check(files, { ...pinned, kept: [june] })).log.verdict).toBe('genuine');
    const report = await check(files, { ...pinned, kept: [{ ...june, seen }] });
    expect(has(report, 'time', size)).toBe(true);
  });
});

describe('9 · the clock is set ahead', () => {
  it('beyond the reader’s now: seen without any witness', async () => {
    const report = await check(honest, { at: recordedAt(20) });
    expect(has(report, 'time', 21)).toBe(true);
    expect(has(report, 'time', 20)).toBe(false);
  });

  it('beyond the day on which a checkpoint with the entry was seen', async () => {
    const ahead = edited(17, { recordedAt: new Date(recordedAt(17.5)).toISOString() });
    const copy: Evidence = { ...kept, statement: checkpointOver(ahead.slice(0, 18).map(canonicalBytes)) };
    const files = publish(ahead);
    expect((await check(files)).log.verdict).toBe('self-consistent');
    const seen = { earliest: recordedAt(17), latest: recordedAt(17) };
    expect(has(await check(files, { ...pinned, kept: [{ ...copy, seen }] }), 'time', 17)).toBe(true);
  });
});

describe('10, 11 · the end is cut off', () => {
  it('in the database, the newest checkpoint kept', async () => {
    const report = await check(withEntries(honest, log.slice(0, 20)));
    expect(has(report, 'shorter', 20)).toBe(true);
    expect([20, 21, 22, 23].every((seq) => has(report, 'missing', seq))).toBe(true);
  });

  it('before the witnessed size, and signed anew or put back from an old backup', async () => {
    const report = await expectFoundOnlyFromOutside(publish(log.slice(0, 12)));
    expect(report.log.faults).toMatchObject([{ kind: 'shorter', seq: 12, before: 18 }]);
  });
});

describe('12 · two readers are shown two logs', () => {
  it('two signed checkpoints of one size prove it', async () => {
    const files = publish(edited(20, raised));
    const mine: Evidence = { label: 'mine', outside: true, statement: checkpointOver(log.map(canonicalBytes)) };
    const report = await check(files, { ...pinned, kept: [mine] });
    expect(has(report, 'fork')).toBe(true);
    expect(reportLines(report).join('\n')).toMatch(/shown in two versions/);
  });
});

describe('13, 14 · the whole log is replaced', () => {
  const other = renumbered(entries(size).map((each) => ({ ...each, ...raised, type: 'batch.oxygenMeasured' })));

  it('under another key: the key that the reader brought does not fit; without it nothing is proven', async () => {
    const files = publish(other, strangerSigner);
    expect(has(await check(files), 'signature')).toBe(true);
    expect((await check(files, {})).log.verdict).toBe('self-consistent');
    expect((await check(files, { kept: [kept] })).log.verdict).toBe('altered');
  });

  it('under the same key', async () => {
    await expectFoundOnlyFromOutside(publish(other));
  });
});

describe('15 · stored hashes are made to fit', () => {
  it('with the entry: the root of the signed checkpoint does not', async () => {
    const rewritten = publish(edited(7, raised));
    const report = await check(changed(rewritten, { checkpoint: honest.get('checkpoint') ?? null }));
    expect(has(report, 'root', 0)).toBe(true);
  });

  it('without the entry: the entries stand, the hashes are said to be wrong', async () => {
    const wrong = publish(edited(7, raised)).get('leaf-hashes') ?? null;
    const report = await check(changed(honest, { 'leaf-hashes': wrong }));
    expect(report.log.faults.map(({ kind }) => kind)).toEqual(['leaf-hashes']);
    expect(has(await check(changed(honest, { 'leaf-hashes': utf8('short') })), 'leaf-hashes')).toBe(true);
  });
});

describe('16, 17 · the checkpoint is edited, stripped or signed by a weak key', () => {
  const checkpoint = Buffer.from(honest.get('checkpoint') ?? []).toString('utf8');

  it.each<[string, string | null]>([
    ['its size', checkpoint.replace('\n24\n', '\n23\n')],
    ['its origin', checkpoint.replace(/^furrowmark\/0/, 'furrowmark/1')],
    ['its root', checkpoint.replace(/\n[A-Za-z0-9+/]{4}/, '\nAAAA')],
    ['its signature', checkpoint.replace(/(— \S+ \S{20})../, '$1xx')],
    ['no signature', checkpoint.slice(0, checkpoint.indexOf('\n\n') + 1)],
    ['nothing left', ''],
    ['taken away', null],
  ])('%s', async (_what, text) => {
    const files = changed(honest, { checkpoint: text === null ? null : utf8(text) });
    for (const reader of [pinned, {}]) {
      const report = await check(files, reader);
      expect(report.log.verdict).toBe('altered');
      expect(has(report, 'signature') || has(report, 'other-log')).toBe(true);
    }
  });

  it('a key of small order is refused before it is used', () => {
    const line = verifierKeyText({ ...signer.key, publicKey: new Uint8Array(32).fill(1, 0, 1) });
    expect(parseVerifierKey(line).ok).toBe(false);
  });

  it('a key that shares only the four-byte key ID does not count', async () => {
    const lookAlike: VerifierKey = { ...strangerSigner.key, keyId: signer.key.keyId };
    expect(has(await check(honest, { keys: [lookAlike] }), 'signature')).toBe(true);
  });
});

describe('18, 19 · documents', () => {
  const letterName = `documents/${sha256(letter).toString('hex')}`;
  const labelName = `documents/${sha256(label).toString('hex')}`;

  it('changed: the entry that names it is named', async () => {
    const report = await check(changed(honest, { [letterName]: utf8('a letter from the certifies') }), witness);
    expect(report.documents?.altered).toMatchObject([{ seq: 5 }]);
    expect(exitCodeOf(report)).toBe(exitCodes.altered);
    // The log is genuine, the archive is not: what is wrong comes first.
    expect(reportLines(report).join('\n')).toMatch(
      /ALTERED, beside the log\n.*named by entry 5, was altered\n\nGENUINE/,
    );
  });

  it('changed with the entry, and signed anew', async () => {
    const forged = utf8('another letter');
    const data = { title: 'paper', byteLength: forged.length, sha256: sha256(forged).toString('hex') };
    const files = publish(edited(5, { data }));
    await expectFoundOnlyFromOutside(changed(files, { [letterName]: null, [`documents/${data.sha256}`]: forged }));
  });

  it('removed: missing is told apart from altered, and the log stays genuine', async () => {
    const report = await check(changed(honest, { [letterName]: null }), witness);
    expect(report.documents).toMatchObject({ altered: [], missing: [{ seq: 5 }] });
    expect(report.log.verdict).toBe('genuine');
    expect(exitCodeOf(report)).toBe(exitCodes.incomplete);
  });

  it('exchanged for one another', async () => {
    const report = await check(changed(honest, { [letterName]: label, [labelName]: letter }), witness);
    expect(report.documents?.altered.map(({ seq }) => seq)).toEqual([5, 6]);
  });

  it('put in without an entry', async () => {
    const report = await check(changed(honest, { 'documents/00': utf8('x') }), witness);
    expect(exitCodeOf(report)).toBe(exitCodes.altered);
  });
});

describe('20 · bytes that are not canonical', () => {
  const bytes = log.map(canonicalBytes);
  const at = (change: (text: string) => string): Uint8Array[] =>
    bytes.map((each, seq) => (seq === 7 ? utf8(change(Buffer.from(each).toString('utf8'))) : each));

  it.each<[string, (text: string) => string]>([
    ['a member twice', (text) => text.replace('{', '{"data":{},')],
    ['an integer beyond 2^53', (text) => text.replace('"version":1', '"version":9007199254740993')],
    ['1.0', (text) => text.replace('"version":1', '"version":1.0')],
    ['a byte order mark', (text) => `\ufeff${text}`],
    ['a space', (text) => `${text} `],
    ['an escape where none is needed', (text) => text.replace('mg/L', 'mg\\/L')],
  ])('%s: seen even when signed anew', async (_what, change) => {
    const [stolen, owner] = [changed(honest, { 'entries.ndjson': linesFrom(at(change)) }), publishBytes(at(change))];
    for (const files of [stolen, owner]) expect(has(await check(files, {}), 'not-canonical', 7)).toBe(true);
  });
});

describe('21 · a look-alike spelling', () => {
  const decomposed = edited(7, {
    data: { dissolvedOxygen: { unit: 'mg/L', value: 6 }, depth: 'dépôt'.normalize('NFD') },
  });

  it('in the database', async () => {
    expect(has(await check(withEntries(honest, decomposed)), 'altered', 7)).toBe(true);
  });

  it('signed anew', async () => {
    await expectFoundOnlyFromOutside(publish(decomposed));
  });
});

describe('22 · a proof is used for another place', () => {
  it('a kept proof names the very entry that the owner rewrote', async () => {
    const leaves = log.slice(0, 2).map((each) => leafHash(canonicalBytes(each)));
    const proof = { index: 1, path: leaves.slice(0, 1) };
    const statement = checkpointOver(log.slice(0, 2).map(canonicalBytes));
    const slip: Evidence = { label: 'my slip', outside: true, statement, proof };
    expect((await check(honest, { ...pinned, kept: [slip] })).log).toMatchObject({
      verdict: 'genuine',
      genuineUpTo: 2,
    });
    expect(has(await check(publish(edited(1, raised)), { ...pinned, kept: [slip] }), 'proof', 1)).toBe(true);
    expect(has(await check(publish(edited(0, raised)), { ...pinned, kept: [slip] }), 'root', 0)).toBe(true);
    const elsewhere: Evidence = { ...slip, proof: { index: 0, path: proof.path } };
    expect(has(await check(honest, { ...pinned, kept: [elsewhere] }), 'proof', 0)).toBe(true);
  });
});

describe('23 · entries or checkpoints of another log', () => {
  const elsewhere = '0197a000-0000-7000-8000-00000000ffff';

  it('one entry brought over', async () => {
    const report = await check(publish(edited(7, { operationId: elsewhere })), {});
    expect(has(report, 'other-log', 7)).toBe(true);
  });

  it('the whole of another log, under that log’s own key', async () => {
    const theirs = publish(
      log.map((each) => ({ ...each, operationId: elsewhere })),
      {
        ...strangerSigner,
        key: { ...strangerSigner.key, name: `furrowmark/${elsewhere}` },
      },
    );
    expect(has(await check(theirs), 'other-log', null)).toBe(true);
    expect(has(await check(theirs, { kept: [kept] }), 'other-log', null)).toBe(true);
  });

  it('the checkpoint of another log', async () => {
    const report = await check(changed(honest, { checkpoint: utf8(checkpointOver([], strangerSigner)) }));
    expect(has(report, 'signature')).toBe(true);
  });
});

describe('24 · only some entries are handed over', () => {
  const some = log.filter(({ seq }) => seq % 3 === 0);
  const labelled = { 'manifest.json': utf8('{"partial":true}') };

  it('as if they were all: the missing ones are named', async () => {
    const report = await check(withEntries(honest, some));
    expect(report.log.verdict).toBe('altered');
    expect(has(report, 'missing', 1) && has(report, 'missing', 2)).toBe(true);
  });

  it('labelled as a part: each is checked, and the report says how many were left out', async () => {
    const report = await check(changed(withEntries(honest, some), labelled), witness);
    expect(report.log).toMatchObject({ verdict: 'genuine', genuineUpTo: 18, entries: 8, size: 24, faults: [] });
    expect(reportLines(report).join('\n')).toMatch(/PARTIAL: 8 of 24 entries are here/);
  });

  it('labelled as a part, one of them edited', async () => {
    const wrong = some.map((each) => (each.seq === 12 ? { ...each, ...raised } : each));
    const report = await check(changed(withEntries(honest, wrong), labelled));
    expect(report.log.faults).toMatchObject([{ kind: 'altered', seq: 12 }]);
  });

  it('labelled as a part, without the leaf hashes that would show it', async () => {
    const report = await check(changed(withEntries(honest, some), { ...labelled, 'leaf-hashes': null }));
    expect(has(report, 'leaf-hashes')).toBe(true);
  });
});

describe('what is sealed', () => {
  it('another value than the one sealed', async () => {
    const lines = Buffer.from(honest.get('openings.ndjson') ?? []).toString('utf8');
    for (const change of [lines.replace('Ines', 'Inez'), lines.replace('"path":"/data', '"path":"/date'), 'x\n']) {
      const report = await check(changed(honest, { 'openings.ndjson': utf8(change) }), witness);
      expect(report.seals).toMatchObject({ opened: 0, withheld: 2 });
      expect(report.seals?.altered).toHaveLength(1);
      expect(exitCodeOf(report)).toBe(exitCodes.altered);
    }
  });

  it('withheld: the log is as genuine as before', async () => {
    const report = await check(changed(honest, { 'openings.ndjson': null }), witness);
    expect(report.seals).toEqual({ opened: 0, withheld: 2, altered: [] });
    expect(report.log.verdict).toBe('genuine');
  });
});

describe('a key is replaced', () => {
  const next = strangerSigner;
  const handover: Entry = {
    ...entry(10),
    type: 'key.replaced',
    data: { previousKey: verifierKeyText(signer.key), key: verifierKeyText(next.key), reason: 'yearly change' },
  };
  const moved = edited(10, handover);
  const files = publish(moved, next);

  it('the next key counts where the trusted one signed a checkpoint over the handing over', async () => {
    const old = utf8(checkpointOver(moved.slice(0, 11).map(canonicalBytes), signer));
    const report = await check(changed(files, { 'checkpoints/11': old }));
    expect(report.log).toMatchObject({
      verdict: 'self-consistent',
      faults: [],
      successions: [{ seq: 10, trusted: true }],
    });
  });

  it('and not where nobody but the new key vouches for it', async () => {
    const tooEarly = utf8(checkpointOver(moved.slice(0, 10).map(canonicalBytes), signer));
    for (const each of [files, changed(files, { 'checkpoints/10': tooEarly })]) {
      const report = await check(each);
      expect(has(report, 'signature')).toBe(true);
      expect(report.log.successions).toMatchObject([{ seq: 10, trusted: false }]);
    }
  });
});

describe('the log was put back from a backup', () => {
  const back: Entry = {
    ...entry(10),
    type: 'log.restored',
    data: { size: 10, knownSize: 18, key: verifierKeyText(signer.key) },
  };
  const restored = [...log.slice(0, 10), back];

  it('and says so: what is lost is still named as lost, beside what the log says of itself', async () => {
    const report = await check(publish(restored), witness);
    expect(has(report, 'shorter', 11)).toBe(true);
    expect(reportLines(report).join('\n')).toMatch(
      /Entry 10 says that the log was put back from a backup of 10 entries, though a checkpoint of 18/,
    );
  });
});

describe('a thousand random tamperings', () => {
  /** mulberry32: a small seeded generator, so that a failure can be run again. */
  function random(seed: number): (below: number) => number {
    let state = seed;
    return (below) => {
      state = (state + 0x6d2b79f5) | 0;
      let t = Math.imul(state ^ (state >>> 15), 1 | state);
      t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
      return ((t ^ (t >>> 14)) >>> 0) % below;
    };
  }

  /** One tampering with the lines of the entries, and the entry at which it must be found. */
  function tamper(seed: number): { lines: Uint8Array[]; seq: number; what: string } {
    const below = random(seed);
    const lines = log.map(canonicalBytes);
    const seq = below(size);
    const line = lines[seq] ?? new Uint8Array(0);
    const what = ['bit', 'byte', 'cut', 'remove', 'double', 'exchange', 'value'][below(7)] ?? 'bit';
    if (what === 'remove') lines.splice(seq, 1);
    else if (what === 'double') lines.splice(seq, 0, line);
    else if (what === 'exchange') {
      const other = (seq + 1 + below(size - 1)) % size;
      [lines[seq], lines[other]] = [lines[other] ?? line, line];
    } else if (what === 'value') {
      const value = { ...entry(seq), data: { tampered: below(1_000_000) } };
      lines[seq] = canonicalBytes(value);
    } else if (what === 'cut') {
      lines[seq] = line.subarray(0, 1 + below(line.length - 1));
    } else {
      const at = below(line.length);
      const mask = what === 'bit' ? 1 << below(8) : 1 + below(255);
      lines[seq] = line.map((byte, i) => (i === at ? byte ^ mask : byte));
    }
    return { lines, seq, what };
  }

  it('of one byte in any file of the archive are found; only the label and the key in it prove nothing anyway', async () => {
    const files = [...honest].filter(([name]) => name !== 'manifest.json' && name !== 'key');
    for (let seed = 1; seed <= 400; seed++) {
      const below = random(seed);
      const [name, content] = files[below(files.length)] ?? ['', new Uint8Array(1)];
      const at = below(content.length);
      const mask = 1 + below(255);
      const report = await check(
        changed(honest, { [name]: content.map((byte, i) => (i === at ? byte ^ mask : byte)) }),
        witness,
      );
      if (exitCodeOf(report) !== exitCodes.altered)
        throw new Error(`seed ${seed}: byte ${at} of ${name} was not found`);
    }
  }, 60_000);

  it('are each found, at the entry that was touched', async () => {
    for (let seed = 1; seed <= 1000; seed++) {
      const { lines, seq, what } = tamper(seed);
      const report = await check(changed(honest, { 'entries.ndjson': linesFrom(lines) }), witness);
      const found =
        what === 'remove'
          ? has(report, 'missing', seq)
          : what === 'double' // the second of the two is the one put in
            ? has(report, 'added', seq + 1)
            : what === 'exchange'
              ? has(report, 'sequence', seq)
              : has(report, 'altered', seq);
      if (report.log.verdict !== 'altered' || !found)
        throw new Error(`seed ${seed}: ${what} of entry ${seq} was not found`);
    }
  }, 60_000);
});
