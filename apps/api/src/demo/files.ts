import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Recorded } from './record.ts';
import { findingsText, type Finding } from './findings.ts';

/** Reports worth printing for this season: which, about what, and the file's name. */
const printed: readonly { readonly report: string; readonly about?: readonly [kind: 'batch' | 'lot', code: string] }[] =
  [
    { report: 'batch-record', about: ['batch', 'T-01'] },
    { report: 'batch-record', about: ['batch', 'T-05'] },
    { report: 'batch-record', about: ['batch', 'T-10'] },
    { report: 'batch-record', about: ['batch', 'L-1'] },
    { report: 'lot-trace', about: ['lot', 'FH-1'] },
    { report: 'recall-sheet', about: ['lot', 'FH-1'] },
    { report: 'season-applications' },
    { report: 'mass-balance' },
    { report: 'findings' },
    { report: 'inspection-packet' },
  ];

/** Writes the PDFs, the records and the findings under `folder`; gives the names. */
export async function writeFiles(
  folder: string,
  { operationId, clients, records }: Recorded,
  findings: readonly Finding[],
): Promise<readonly string[]> {
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'season.ndjson'), `${records.map((record) => JSON.stringify(record)).join('\n')}\n`);
  await writeFile(join(folder, 'findings.txt'), findingsText(findings));
  const names: string[] = [];
  for (const { report, about } of printed) {
    const query = about === undefined ? '' : `?${about[0]}=${idOf(records, about)}`;
    const name = `${report}${about === undefined ? '' : `-${about[1]}`}.pdf`;
    await writeFile(
      join(folder, name),
      await clients.inspector.bytes(`/operations/${operationId}/reports/${report}.pdf${query}`),
    );
    names.push(name);
  }
  return [...names, 'season.ndjson', 'findings.txt'];
}

function idOf(records: Recorded['records'], [kind, code]: readonly ['batch' | 'lot', string]): string {
  const type = kind === 'batch' ? 'batch.opened' : 'lot.received';
  for (const { type: its, data } of records) {
    if (its !== type || !('code' in data) || data.code !== code) continue;
    const id: unknown = Reflect.get(data, `${kind}Id`);
    if (typeof id === 'string') return id;
  }
  throw new Error(`the season has no ${kind} ${code}`);
}

/** Where programs find the way in: complete or not there at all, and for its owner only. */
export class AccessFile {
  readonly #path: string;

  constructor(folder: string) {
    this.#path = join(folder, 'access.json');
  }

  async remove(): Promise<void> {
    await rm(this.#path, { force: true });
  }

  async write(url: string, { operationId, clients }: Recorded): Promise<void> {
    const { manager, recorder, reviewer, inspector } = clients;
    const tokens = {
      ...{ manager: manager.token, recorder: recorder.token },
      ...{ reviewer: reviewer.token, inspector: inspector.token },
    };
    const fresh = `${this.#path}.${process.pid}`;
    await writeFile(fresh, `${JSON.stringify({ url, operationId, tokens }, null, 2)}\n`, { mode: 0o600 });
    await rename(fresh, this.#path);
  }
}
