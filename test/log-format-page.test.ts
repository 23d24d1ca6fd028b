import { createHash, createPublicKey, verify } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';

/*
 * The worked example of docs/log-format.md, computed as that page says and with nothing but node:crypto: none of the
 * project's code takes part, so the page and the code cannot drift apart unseen (the tamper tests hold the code).
 */
const page = readFileSync(new URL('../docs/log-format.md', import.meta.url), 'utf8');
const example = page.slice(page.indexOf('## A worked example'));
const sha256 = (...parts: (Buffer | string)[]): Buffer =>
  parts.reduce((hash, part) => hash.update(part), createHash('sha256')).digest();
const after = (label: RegExp): string => label.exec(example)?.[1] ?? `nothing like ${label}`;

const entries = [...example.matchAll(/^ {4}(\{.*\})$/gm)].map((match) => match[1] ?? '');
const leaves = entries.map((entry) => sha256(Buffer.from([0]), entry));
const root = sha256(Buffer.from([1]), ...leaves);
const vkey = after(/^ {4}(furrowmark\/\S+\+[0-9a-f]{8}\+\S+)$/m);
const note = example
  .slice(example.lastIndexOf('\n    furrowmark/') + 1)
  .replaceAll(/^ {4}/gm, '')
  .trimEnd();

describe('the worked example of the log format', () => {
  it('has the leaf hashes and the root', () => {
    expect(entries).toHaveLength(2);
    expect(leaves.map((leaf) => leaf.toString('hex'))).toEqual([after(/leaf 0 +(\S+)/), after(/leaf 1 +(\S+)/)]);
    expect(root.toString('hex')).toBe(after(/root +(\S+)/));
  });

  it('has the key ID that name and key give', () => {
    const [name, keyId, encoded] = vkey.split(/\+(?=[0-9a-f]{8}\+)|(?<=\+[0-9a-f]{8})\+/);
    const typeAndKey = Buffer.from(encoded ?? '', 'base64');
    expect(typeAndKey).toHaveLength(33);
    expect(
      sha256(name ?? '', '\n', typeAndKey)
        .toString('hex')
        .slice(0, 8),
    ).toBe(keyId);
  });

  it('has a checkpoint over this root, signed by this key', () => {
    const [text = '', signatures = ''] = note.split('\n\n');
    expect(text.split('\n')).toEqual(
      [JSON.parse(entries[0] ?? '').operationId, '2', root.toString('base64')].map((line, i) =>
        i === 0 ? `furrowmark/${line}` : line,
      ),
    );
    const blob = Buffer.from(/ (\S+)$/.exec(signatures)?.[1] ?? '', 'base64');
    const raw = Buffer.from(vkey.split('+').slice(2).join('+'), 'base64').subarray(1);
    const spki = Buffer.concat([Buffer.from('302a300506032b6570032100', 'hex'), raw]);
    const key = createPublicKey({ key: spki, format: 'der', type: 'spki' });
    expect(verify(null, Buffer.from(`${text}\n`), key, blob.subarray(4))).toBe(true);
    expect(verify(null, Buffer.from(`${text}\n\n`), key, blob.subarray(4))).toBe(false);
    expect(blob.subarray(0, 4).toString('hex')).toBe(vkey.split('+')[1]);
  });
});
