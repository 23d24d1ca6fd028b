import { createReadStream } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { linesOf, textOf } from '@furrowmark/log';
import { firstBytes, openDirectory, openTar } from './archive.ts';
import { readKept, readKey } from './kept.ts';
import { parseOptions, usage } from './options.ts';
import type { Options } from './options.ts';
import { verifyCheckpointFile, verifyProofFile } from './single.ts';
import type { Finding } from './single.ts';
import { verifyArchive, verifyBare } from './verify.ts';
import type { ArchiveReport, Trust } from './verify.ts';
import { exitCodeOf, exitCodes, reportLines } from './words.ts';

/** The whole program but for its process: command line in, exit code and text out. */
export async function run(args: readonly string[], now: number): Promise<{ code: number; output: string }> {
  if (args.includes('--help') || args.length === 0)
    return { code: args.length === 0 ? exitCodes.unreadable : 0, output: usage };
  try {
    const options = parseOptions(args);
    const { code, lines } = await check(options, now);
    return { code, output: `${lines.join('\n')}\n` };
  } catch (error) {
    return { code: exitCodes.unreadable, output: `Not readable: ${whyOf(error)}\n` };
  }
}

/** Why something could not be read, in words; the system's own only where there are none. */
function whyOf(error: unknown): string {
  if (typeof error !== 'object' || error === null || !('message' in error)) return String(error);
  const path = 'path' in error ? String(error.path) : '';
  const code = 'code' in error ? error.code : '';
  if (code === 'ENOENT') return `there is no file ${path}`;
  if (code === 'EACCES') return `${path} may not be read`;
  return String(error.message);
}

async function check(options: Options, now: number): Promise<Finding> {
  const { what } = options;
  const keys = await Promise.all(options.keys.map(readKey));
  const kept = await Promise.all(options.against.map((each) => readKept(each.what, each.dated)));
  const trust: Trust = { keys, kept, now };
  if ((await stat(what)).isDirectory()) return finding(await verifyArchive(await openDirectory(what), trust), options);
  const start = await firstBytes(what, 512);
  if (textOf(start.subarray(257, 262)) === 'ustar')
    return finding(await verifyArchive(await openTar(what), trust), options);
  if (start[0] === 0x7b) {
    const checkpoint = options.checkpoint === null ? null : await readFile(options.checkpoint);
    return finding(await verifyBare(linesOf(createReadStream(what)), checkpoint, trust), options);
  }
  const bytes = await readFile(what);
  if (textOf(start.subarray(0, 20)) === 'c2sp.org/tlog-proof@') {
    return verifyProofFile(bytes, options.entry === null ? null : withoutLineEnd(await readFile(options.entry)), trust);
  }
  return verifyCheckpointFile(bytes, trust);
}

function finding(report: ArchiveReport, { json }: Options): Finding {
  const asJson = (_key: string, value: unknown): unknown => (value instanceof Map ? Object.fromEntries(value) : value);
  return { code: exitCodeOf(report), lines: json ? [JSON.stringify(report, asJson, 2)] : reportLines(report) };
}

/** A file of one entry often ends in a line feed, which canonical JSON never does. */
const withoutLineEnd = (bytes: Uint8Array): Uint8Array => (bytes.at(-1) === 0x0a ? bytes.subarray(0, -1) : bytes);
