import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import ed25519Vectors from '../../../test/checks/log/ed25519-rfc8032.json' with { type: 'json' };
import vectors from '../../../test/checks/log/signed-note.json' with { type: 'json' };
import { concatBytes, fromBase64, hex, utf8 } from './bytes.ts';
import { checkpointText, openCheckpoint, parseCheckpointText, signCheckpoint } from './checkpoint.ts';
import { cosignedMessage } from './cosignature.ts';
import { parseVerifierKey, signerFromSeed, verifierKey, verifierKeyText, verifySignature } from './key.ts';
import type { Signer, VerifierKey } from './key.ts';
import { leafHash } from './merkle-hash.ts';
import { openNote, parseNote, signNote } from './note.ts';

// Figures: RFC 8032 section 7.1, C2SP signed-note, golang.org/x/mod; see test/checks/log/README.md.
const bytes = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, 'hex'));

function keyOf(text: string): VerifierKey {
  const key = parseVerifierKey(text);
  if (!key.ok) throw new Error(key.why);
  return key.value;
}

describe('Ed25519 (RFC 8032)', () => {
  it.each(ed25519Vectors.positive)('$name: the key, the signature and its verification', (v) => {
    const signer = signerFromSeed('test', bytes(v.seedHex));
    expect(hex(signer.key.publicKey)).toBe(v.publicKeyHex);
    expect(hex(signer.sign(bytes(v.messageHex)))).toBe(v.signatureHex);
    expect(verifySignature(bytes(v.publicKeyHex), bytes(v.messageHex), bytes(v.signatureHex))).toBe(true);
  });

  it.each(ed25519Vectors.negative)('refuses: $name', (v) => {
    expect(verifySignature(bytes(v.publicKeyHex), bytes(v.messageHex), bytes(v.signatureHex))).toBe(false);
  });

  // The eight encodings of small order; written from memory, and all refused whatever the reason.
  it.each([
    '0100000000000000000000000000000000000000000000000000000000000000',
    'ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f',
    '0000000000000000000000000000000000000000000000000000000000000000',
    '0000000000000000000000000000000000000000000000000000000000000080',
    '26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05',
    '26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc85',
    'c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a',
    'c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac03fa',
  ])('refuses the small-order key %s', (publicKey) => {
    expect(verifierKey('test', bytes(publicKey)).ok).toBe(false);
    expect(verifySignature(bytes(publicKey), utf8('anything'), concatBytes(bytes(publicKey), new Uint8Array(32)))).toBe(
      false,
    );
  });

  it('refuses an encoding of y beyond the field prime, and bytes that are no point', () => {
    expect(verifierKey('test', bytes('eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f')).ok).toBe(
      false,
    );
    expect(verifierKey('test', bytes('02' + '00'.repeat(31))).ok).toBe(false);
    expect(verifierKey('test', new Uint8Array(31)).ok).toBe(false);
  });

  it('refuses a seed of another length', () => {
    expect(() => signerFromSeed('test', new Uint8Array(31))).toThrow(RangeError);
  });
});

describe('verifier keys', () => {
  it.each(vectors.verifierKeys)('$vkey', ({ vkey, name, keyIdHex, publicKeyHex }) => {
    const key = keyOf(vkey);
    expect(key).toMatchObject({ name, keyId: keyIdHex, type: 'ed25519' });
    expect(hex(key.publicKey)).toBe(publicKeyHex);
    expect(verifierKeyText(key)).toBe(vkey);
  });

  it.each(vectors.bad_verifier_keys)('refuses $vkey ($check)', ({ vkey }) => {
    expect(parseVerifierKey(vkey).ok).toBe(false);
  });

  it('names may not hold what ends a name', () => {
    const publicKey = keyOf(vectors.verifierKeys[0]?.vkey ?? '').publicKey;
    for (const name of ['', 'a b', 'a+b', 'a\u00a0b', 'a\u0085b', 'a\nb']) {
      expect(verifierKey(name, publicKey).ok).toBe(false);
    }
  });
});

describe('signed notes (C2SP)', () => {
  it.each(vectors.positive)('opens: $name', ({ note, verifierKeys, check }) => {
    const opened = openNote(note, verifierKeys.map(keyOf));
    if (!opened.ok) throw new Error(opened.why);
    expect(opened.value.verified.map(({ key }) => key.name)).toEqual(check.verified);
    expect(opened.value.unknown.map(({ name }) => name)).toEqual(check.unverified);
    expect(note.startsWith(`${opened.value.text}\n— `)).toBe(true);
  });

  it.each(vectors.negative)('refuses: $name', ({ note, noteBase64, verifierKeys }) => {
    const given = note ?? Uint8Array.from(Buffer.from(noteBase64 ?? '', 'base64'));
    expect(openNote(given, verifierKeys.map(keyOf)).ok).toBe(false);
  });

  it('signs the published example byte for byte', () => {
    const example = vectors.positive[0];
    const [, , name, , secret] =
      /^PRIVATE\+KEY(\+)([^+]+)\+([0-9a-f]+)\+(.*)$/.exec(example?.signerKeyTestOnly ?? '') ?? [];
    const seed = fromBase64(secret ?? '')?.subarray(1) ?? new Uint8Array(0);
    const signer = signerFromSeed(name ?? '', seed);
    const text = example?.note.slice(0, example.note.lastIndexOf('\n\n') + 1) ?? '';
    expect(signNote(text, [signer])).toBe(example?.note);
  });

  it('refuses the whole note where one signature by a trusted key fails, though another verifies', () => {
    const [a, b] = [signerFromSeed('a', new Uint8Array(32).fill(1)), signerFromSeed('b', new Uint8Array(32).fill(2))];
    const forged: Signer = { key: b.key, sign: (message) => b.sign(concatBytes(message, utf8('!'))) };
    expect(openNote(signNote('text\n', [a, forged]), [a.key, b.key]).ok).toBe(false);
    expect(openNote(signNote('text\n', [a, forged]), [a.key]).ok).toBe(true);
  });

  it('fails at every single flipped bit', () => {
    const signer = signerFromSeed('log', new Uint8Array(32).fill(3));
    const note = utf8(signNote('one\n\ntwo\n', [signer]));
    for (let bit = 0; bit < note.length * 8; bit++) {
      const changed = note.map((byte, i) => (i === bit >> 3 ? byte ^ (1 << (bit & 7)) : byte));
      expect(openNote(changed, [signer.key]).ok).toBe(false);
    }
  });

  it('refuses to sign a text that no note can carry', () => {
    const signer = signerFromSeed('log', new Uint8Array(32).fill(3));
    for (const text of ['', 'no line feed', 'a\tb\n', 'a\r\n']) {
      expect(() => signNote(text, [signer])).toThrow(RangeError);
    }
  });

  it('any text ending in a line feed round-trips', () => {
    const signer = signerFromSeed('log', new Uint8Array(32).fill(3));
    const line = fc.string({ unit: 'binary' }).map((s) => s.replaceAll(/\p{Cc}/gu, ''));
    fc.assert(
      fc.property(fc.array(line, { minLength: 1 }), (lines) => {
        const text = `${lines.join('\n')}\n`;
        const read = parseNote(signNote(text, [signer]));
        expect(read.ok && read.value.text).toBe(text);
      }),
    );
  });
});

describe('cosignatures (C2SP tlog-cosignature)', () => {
  const seed = new Uint8Array(32).fill(9);
  const plain = signerFromSeed('witness.example', seed);
  const made = verifierKey('witness.example', plain.key.publicKey, 'cosignature');
  if (!made.ok) throw new Error(made.why);
  const witness = made.value;
  const time = Date.UTC(2026, 5, 3) / 1000;
  const eightBytes = new Uint8Array(8);
  new DataView(eightBytes.buffer).setBigUint64(0, BigInt(time));
  const cosigner: Signer = {
    key: witness,
    sign: (text) => concatBytes(eightBytes, plain.sign(cosignedMessage(Buffer.from(text).toString('utf8'), time))),
  };
  const log = signerFromSeed('log', new Uint8Array(32).fill(3));
  const checkpoint = { origin: 'log', size: 3, root: leafHash(utf8('x')) };
  const note = signCheckpoint(checkpoint, [log, cosigner]);

  it('give the time that the witness signed', () => {
    const opened = openCheckpoint(note, [log.key, witness]);
    expect(opened.ok && opened.value.note.verified.map(({ time: t }) => t)).toEqual([undefined, time]);
  });

  it('sign exactly the text that the specification shows', () => {
    // The example of the specification's section "Ed25519 signed message", with our own checkpoint in it.
    expect(Buffer.from(cosignedMessage(checkpointText(checkpoint), 1679315147)).toString('utf8')).toBe(
      `cosignature/v1\ntime 1679315147\n${checkpointText(checkpoint)}`,
    );
  });

  it('fail when the time is moved', () => {
    eightBytes[7] = (eightBytes[7] ?? 0) ^ 1;
    const moved = signCheckpoint(checkpoint, [
      { key: witness, sign: (t) => concatBytes(eightBytes, cosigner.sign(t).subarray(8)) },
    ]);
    expect(openCheckpoint(moved, [witness]).ok).toBe(false);
    eightBytes[7] = (eightBytes[7] ?? 0) ^ 1;
  });

  it('have another key ID than plain signatures of the same key', () => {
    expect(witness.keyId).not.toBe(plain.key.keyId);
    expect(keyOf(verifierKeyText(witness))).toEqual(witness);
  });
});

describe('checkpoints (C2SP tlog-checkpoint)', () => {
  it.each(vectors.positive.filter((v) => v.checkpoint !== undefined))(
    'reads: $name',
    ({ note, verifierKeys, checkpoint }) => {
      const opened = openCheckpoint(note, verifierKeys.map(keyOf));
      if (!opened.ok) throw new Error(opened.why);
      const { origin, size, root } = opened.value.checkpoint;
      expect({ origin, size: String(size), rootHex: hex(root) }).toEqual(checkpoint);
    },
  );

  it.each(vectors.checkpoint_body.bad)('refuses $text ($check)', ({ text }) => {
    expect(parseCheckpointText(text).ok).toBe(false);
  });

  it('writes the published text', () => {
    const { leafData, leafHashHex, checkpointText: expected } = vectors.checkpoint_body.format;
    const root = leafHash(utf8(leafData));
    expect(hex(root)).toBe(leafHashHex);
    expect(checkpointText({ origin: 'go.sum database tree', size: 123456789012, root })).toBe(expected);
  });

  it('refuses a size that a number cannot hold', () => {
    const root = 'TszzRgjTG6xce+z2AG31kAXYKBgQVtCSCE40HmuwBb0=';
    expect(parseCheckpointText(`o\n9007199254740991\n${root}\n`).ok).toBe(true);
    expect(parseCheckpointText(`o\n9007199254740992\n${root}\n`).ok).toBe(false);
  });
});
