import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import {
  canonicalBytes,
  extend,
  emptyFrontier,
  leafHash,
  nodesForInclusion,
  packTar,
  proofFrom,
  tlogProofText,
  utf8,
  verifierKeyText,
} from '@furrowmark/log';
import { exitCodes, run } from '@furrowmark/verify';
import {
  changed,
  checkpointOver,
  entries,
  linesFrom,
  now,
  origin,
  publish,
  recordedAt,
  signer,
  strangerSigner,
} from './quillfen-log.ts';
import type { Files } from './quillfen-log.ts';

const exec = promisify(execFile);
const log = entries(24);
const bytes = log.map(canonicalBytes);
const key = verifierKeyText(signer.key);
let folder = '';
const at = (name: string): string => join(folder, name);

async function writeTar(name: string, files: Files): Promise<string> {
  const chunks: Uint8Array[] = [];
  const packed = [...files].map(([fileName, body]) => ({ name: fileName, size: body.length, body }));
  for await (const chunk of packTar(packed)) chunks.push(chunk);
  await writeFile(at(name), Buffer.concat(chunks));
  return at(name);
}

async function writeFolder(name: string, files: Files): Promise<string> {
  for (const [fileName, body] of files) {
    await mkdir(dirname(at(`${name}/${fileName}`)), { recursive: true });
    await writeFile(at(`${name}/${fileName}`), body);
  }
  return at(name);
}

const honest = publish(log);
const stolen = changed(honest, {
  'entries.ndjson': linesFrom(
    log.map((each) => canonicalBytes(each.seq === 7 ? { ...each, data: { lowered: true } } : each)),
  ),
});

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'verify-'));
  await writeTar('honest.tar', honest);
  await writeFile(at('kept.txt'), checkpointOver(bytes.slice(0, 18)));
  await writeFile(at('key.txt'), `${key}\n`);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('the verifying program', () => {
  it('reads a packed archive: genuine with an outside checkpoint, exit 0', async () => {
    const { code, output } = await run(
      [at('honest.tar'), '--key', key, '--against', at('kept.txt'), '--dated', '2026-06-02'],
      now,
    );
    expect(output).toMatch(/^Log: furrowmark\/0197a000-0000-7000-8000-000000000001$/m);
    expect(output).toMatch(/^GENUINE UP TO SIZE 18, WITNESSED 2026-06-02$/m);
    expect(output).toMatch(/^Sealed members: 1 opened and match, 1 withheld, 0 altered$/m);
    expect(code).toBe(exitCodes.genuine);
  });

  it('takes the key from a file, and the size and root as printed on a page', async () => {
    const root = checkpointOver(bytes.slice(0, 5)).split('\n')[2] ?? '';
    const { code, output } = await run([at('honest.tar'), '--key', at('key.txt'), '--against', `5:${root}`], now);
    expect(output).toMatch(/^GENUINE UP TO SIZE 5, WITNESSED at a time that nobody stated$/m);
    expect(code).toBe(exitCodes.genuine);
  });

  it('says what is wrong with a root copied from paper with a sign too many, and which file is not there', async () => {
    const root = checkpointOver(bytes.slice(0, 5)).split('\n')[2] ?? '';
    const archive = await writeTar('again.tar', honest);
    const mistyped = await run([archive, '--against', `5:x${root}`], now);
    expect(mistyped.code).toBe(exitCodes.unreadable);
    expect(mistyped.output).toContain('A root has 44 signs, letters, digits, + and /, the last of them =; here are 45');
    const absent = await run([at('absent.tar')], now);
    expect(absent).toEqual({
      code: exitCodes.unreadable,
      output: `Not readable: there is no file ${at('absent.tar')}\n`,
    });
  });

  it('without anything from outside says so, exit 3', async () => {
    const { code, output } = await run([at('honest.tar')], now);
    expect(output).toMatch(/SELF-CONSISTENT, BUT NOT WITNESSED/);
    expect(code).toBe(exitCodes.notWitnessed);
  });

  it('names the altered entry, exit 1, whether the archive is packed or not', async () => {
    for (const path of [await writeTar('stolen.tar', stolen), await writeFolder('stolen', stolen)]) {
      const { code, output } = await run([path, '--key', key], now);
      expect(output).toMatch(/ALTERED\n {2}- entry 7 was altered/);
      expect(code).toBe(exitCodes.altered);
    }
  });

  it('gives the whole report as JSON', async () => {
    const { output } = await run([at('honest.tar'), '--json'], now);
    expect(JSON.parse(output)).toMatchObject({ log: { verdict: 'self-consistent', origin, entries: 24, further: {} } });
  });

  it('reads entries alone, one a line, with the checkpoint beside them', async () => {
    await writeFile(at('entries.ndjson'), honest.get('entries.ndjson') ?? '');
    await writeFile(at('checkpoint'), honest.get('checkpoint') ?? '');
    const fetched = [at('entries.ndjson'), '--checkpoint', at('checkpoint'), '--key', key];
    expect((await run(fetched, now)).code).toBe(exitCodes.notWitnessed);
    expect((await run([...fetched, '--against', at('kept.txt')], now)).code).toBe(exitCodes.genuine);
    await writeFile(at('fewer.ndjson'), linesFrom(bytes.slice(0, 20)));
    const cut = await run([at('fewer.ndjson'), ...fetched.slice(1)], now);
    expect(cut).toMatchObject({ code: exitCodes.altered });
    expect(cut.output).toMatch(/covers 24 entries, but only 20 are here/);
  });

  it('reads a proof file: of the entry in it, of one beside it, and of another', async () => {
    const { nodes } = extend(emptyFrontier, bytes.map(leafHash));
    const plan = nodesForInclusion(7, 24);
    const path = proofFrom(
      plan,
      plan.nodes.map((id) => nodes.find((n) => n.level === id.level && n.index === id.index)?.hash ?? utf8('')),
    );
    const proof = { index: 7, path, checkpoint: checkpointOver(bytes) };
    await writeFile(at('own.tlog-proof'), tlogProofText({ ...proof, extra: bytes[7] ?? utf8('') }));
    await writeFile(at('bare.tlog-proof'), tlogProofText(proof));
    await writeFile(at('seven.json'), linesFrom(bytes.slice(7, 8)));
    await writeFile(at('eight.json'), linesFrom(bytes.slice(8, 9)));
    const check = async (...args: string[]) => (await run(args, now)).code;
    expect(await check(at('own.tlog-proof'), '--key', key)).toBe(exitCodes.genuine);
    expect(await check(at('bare.tlog-proof'), '--key', key, '--entry', at('seven.json'))).toBe(exitCodes.genuine);
    expect(await check(at('bare.tlog-proof'), '--key', key, '--entry', at('eight.json'))).toBe(exitCodes.altered);
    expect(await check(at('own.tlog-proof'), '--key', verifierKeyText(strangerSigner.key))).toBe(exitCodes.altered);
    expect(await check(at('own.tlog-proof'))).toBe(exitCodes.unreadable);
    expect(await check(at('bare.tlog-proof'), '--key', key)).toBe(exitCodes.unreadable);
    // Kept by a buyer, and held against the log later.
    expect(await check(at('honest.tar'), '--key', key, '--against', at('own.tlog-proof'))).toBe(exitCodes.genuine);
    const rewritten = log.map((each) => (each.seq === 7 ? { ...each, data: {} } : each));
    const forged = await run(
      [await writeTar('forged.tar', publish(rewritten)), '--against', at('own.tlog-proof')],
      now,
    );
    expect(forged.output).toMatch(/entry 7 is not the entry that .*own\.tlog-proof shows/);
  });

  it('compares two checkpoints', async () => {
    await writeFile(at('ours.txt'), checkpointOver(bytes));
    await writeFile(at('theirs.txt'), checkpointOver([...bytes.slice(0, 23), utf8('{}')]));
    const check = async (...args: string[]) => (await run(args, now)).code;
    expect(await check(at('ours.txt'), '--key', key, '--against', at('ours.txt'))).toBe(exitCodes.genuine);
    expect(await check(at('ours.txt'), '--key', key, '--against', at('theirs.txt'))).toBe(exitCodes.altered);
    expect(await check(at('ours.txt'), '--key', key, '--against', at('kept.txt'))).toBe(exitCodes.notWitnessed);
    expect(await check(at('ours.txt'), '--key', verifierKeyText(strangerSigner.key))).toBe(exitCodes.altered);
  });

  it.each<[string, () => string[], RegExp]>([
    ['no file of this name', () => [at('nothing')], /there is no file/],
    ['a key that is none', () => [at('honest.tar'), '--key', at('kept.txt')], /not a verifier key/],
    ['two things to check', () => [at('honest.tar'), at('kept.txt')], /one thing/],
    ['a date before anything it could date', () => [at('honest.tar'), '--dated', '2026-06-02'], /follows/],
    ['a date that is none', () => [at('honest.tar'), '--against', at('kept.txt'), '--dated', 'June'], /neither a date/],
    ['an unknown option', () => [at('honest.tar'), '--trust'], /trust/],
  ])('says what is wrong with the command: %s', async (_what, args, words) => {
    const { code, output } = await run(args(), now);
    expect(output).toMatch(words);
    expect(code).toBe(exitCodes.unreadable);
  });

  it('refuses an archive that is cut short, that holds a file twice, and a folder with links', async () => {
    const whole = await writeTar('cut.tar', honest);
    await exec('truncate', ['--size=5000', whole]);
    expect((await run([whole], now)).output).toMatch(/the archive ends/);
    const twice = [...honest, ...honest].map(([name, body]) => ({ name, size: body.length, body }));
    const chunks: Uint8Array[] = [];
    for await (const chunk of packTar(twice)) chunks.push(chunk);
    await writeFile(at('twice.tar'), Buffer.concat(chunks));
    expect((await run([at('twice.tar')], now)).output).toMatch(/in the archive twice/);
    await writeFolder('linked', honest);
    await symlink(at('kept.txt'), at('linked/extra'));
    expect((await run([at('linked')], now)).output).toMatch(/neither a file nor a directory/);
  });
});

describe('an archive', () => {
  it('is read by the ordinary tar, and what the ordinary tar packs is read here', async () => {
    const { stdout } = await exec('tar', ['tf', at('honest.tar')]);
    expect(stdout.trim().split('\n')).toEqual([...honest.keys()]);
    await mkdir(at('unpacked'));
    await exec('tar', ['xf', at('honest.tar'), '-C', at('unpacked')]);
    await exec(
      'cmp',
      [at('unpacked/entries.ndjson'), '-']
        .slice(0, 1)
        .concat(await writeFolder('same', honest).then((f) => `${f}/entries.ndjson`)),
    );
    for (const format of ['ustar', 'gnu']) {
      await exec('tar', [`--format=${format}`, '-cf', at(`${format}.tar`), '-C', at('unpacked'), '.']);
      const { code, output } = await run([at(`${format}.tar`), '--key', key, '--against', at('kept.txt')], now);
      expect(output).toMatch(/GENUINE UP TO SIZE 18/);
      expect(code).toBe(exitCodes.genuine);
    }
  });
});

describe('as a program of its own', () => {
  it('runs without the service and ends with the exit code', async () => {
    const main = new URL('../../apps/verify/src/main.ts', import.meta.url).pathname;
    const start = (...args: string[]) => exec(process.execPath, ['--conditions=source', main, ...args]);
    const dated = new Date(recordedAt(18)).toISOString();
    // Its clock is the machine's: entries of 2026 may lie ahead of it, but the key and the root are judged the same.
    const { stdout } = await start(at('honest.tar'), '--key', key, '--against', at('kept.txt'), '--dated', dated).catch(
      (failed: { stdout: string }) => failed,
    );
    expect(stdout).toMatch(
      /Kept outside: .*kept\.txt, size 18, seen 2026-06-02T05:00:00.000Z: agrees \(signature fits\)/,
    );
    await expect(start(at('nothing'))).rejects.toMatchObject({ code: exitCodes.unreadable });
  }, 20_000);
});
