import { isDeepStrictEqual } from 'node:util';
import { openService } from '@furrowmark/api';
import { base64, emptyFrontier, extend, leafHash, parseCanonical, rootOf } from '@furrowmark/log';
import { Rebuild } from '../../apps/api/src/archive/index.ts';
import { asked } from './asked.ts';
import type { Address, Told } from './phones.ts';

/** What is not as it must be in a log that nobody writes to just now: a sentence each. */
export async function logFaults(at: Address, told: Told): Promise<string[]> {
  const wrong: string[] = [];
  const get = (path: string): Promise<Response> =>
    asked(`${at.url}/api/v1/operations/${at.operationId}/log/${path}`, {
      headers: { authorization: `Bearer ${at.token}` },
    });
  const lines: Buffer[] = [];
  for (let next: string | null = '0'; next !== null;) {
    const answer: Response = await get(`entries?from=${next}`);
    if (answer.status !== 200) return [`the entries answer ${answer.status}`];
    lines.push(
      ...(await answer.text())
        .split('\n')
        .slice(0, -1)
        .map((line) => Buffer.from(line)),
    );
    next = answer.headers.get('furrowmark-next');
  }
  const entries = lines.map((line) => Object(parseCanonical(line)?.value));
  entries.forEach(({ seq }, i) => {
    if (seq !== i) wrong.push(`entry ${i} says seq ${seq}`);
  });
  for (const [i, { recordedAt }] of entries.entries())
    if (i > 0 && recordedAt < entries[i - 1]?.recordedAt) wrong.push(`entry ${i} is recorded before the one before it`);
  const times = new Map<string, number>();
  for (const { id } of entries) times.set(id, (times.get(id) ?? 0) + 1);
  for (const [id, count] of times) if (count !== 1) wrong.push(`${id} stands ${count} times`);
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  for (const [id, seq] of told.acknowledged) {
    const entry = byId.get(id);
    if (entry === undefined) wrong.push(`${id} was acknowledged and is not there`);
    else if (entry.seq !== seq) wrong.push(`${id} was acknowledged at ${seq} and stands at ${entry.seq}`);
    else if (!isDeepStrictEqual(entry.data, told.sent.get(id)?.['data'])) wrong.push(`${id} is not what was sent`);
  }
  for (const { id } of entries.slice(1)) if (!told.sent.has(id)) wrong.push(`${id} was sent by nobody`);
  const { frontier } = extend(
    emptyFrontier,
    lines.map((line) => leafHash(line)),
  );
  const [, size, root] = (await (await get('checkpoint')).text()).split('\n');
  if (size !== String(lines.length)) wrong.push(`the checkpoint says ${size} of ${lines.length} entries`);
  if (root !== base64(rootOf(frontier))) wrong.push('the signed root is not that of the entries');
  return wrong;
}

/** What is kept beside the log otherwise than a rebuild from the log makes it: facts, edges, indexes, tree. */
export async function rebuildFaults(dataDir: string, databaseUrl: string | undefined, operationId: string) {
  // PostgreSQL counts its timeouts by its clock, which the storm sets up to two hours ahead: a new connection notices it
  // within its first second, in the middle of what it does.
  const databasePatience = 24 * 3_600_000;
  const service = await openService({ dataDir, databaseUrl, databasePatience, log: 'error' });
  try {
    const { batches, different, indexes } = await service.context.get(Rebuild).run(operationId, { mend: false });
    return { batches, wrong: [...different, ...indexes.map(({ what }) => what)] };
  } finally {
    await service.close();
  }
}
