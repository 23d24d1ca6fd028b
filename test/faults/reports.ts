import { createHash } from 'node:crypto';
import { setTimeout as pause } from 'node:timers/promises';
import { z } from 'zod';
import { asked } from './asked.ts';
import type { Address } from './phones.ts';

const job = z.looseObject({
  jobId: z.string(),
  state: z.string(),
  progress: z.number(),
  result: z.object({ href: z.string(), byteLength: z.number(), sha256: z.string() }).optional(),
});

/** Asks until the answer is other than 503, which says to ask again. */
async function ask({ url, token, operationId }: Address, path: string, body?: object): Promise<Response> {
  for (let tries = 0; ; tries += 1) {
    const got = await asked(
      path.startsWith('/') ? `${url}${path}` : `${url}/api/v1/operations/${operationId}/${path}`,
      {
        method: body === undefined ? 'GET' : 'POST',
        headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      },
    );
    if (got.status !== 503 || tries === 50) return got;
    await got.text();
    await pause(200);
  }
}

/** A job as it is answered; what else was answered is an error that says so. */
async function askJob(at: Address, path: string, body?: object): Promise<z.infer<typeof job>> {
  const got = await ask(at, path, body);
  const text = await got.text();
  if (!got.ok) throw new Error(`${path} answers ${got.status}: ${text.slice(0, 500)}`);
  return job.parse(JSON.parse(text));
}

/** Asks for a report that takes a while, and waits until it is under way; gives the job's id. */
export async function askReport(at: Address): Promise<string> {
  const wish = { kind: 'inspection-packet', parameters: { from: '2026-05-01', to: '2026-05-03' } };
  const { jobId } = await askJob(at, 'report-jobs', wish);
  for (let i = 0; i < 200; i += 1) {
    const { state } = await askJob(at, `report-jobs/${jobId}`);
    if (state !== 'waiting') break;
    await pause(10);
  }
  return jobId;
}

/** What is not as it must be with reports that were asked for: each is made, once, and its bytes are those it names. */
export async function reportFaults(at: Address, jobIds: readonly string[]): Promise<string[]> {
  const wrong: string[] = [];
  for (const jobId of jobIds) {
    let seen = await askJob(at, `report-jobs/${jobId}`);
    for (let i = 0; i < 1_200 && (seen.state === 'waiting' || seen.state === 'running'); i += 1) {
      await pause(100);
      seen = await askJob(at, `report-jobs/${jobId}`);
    }
    if (seen.state !== 'done' || seen.result === undefined) {
      wrong.push(`report ${jobId} is ${seen.state}`);
      continue;
    }
    const bytes = Buffer.from(await (await ask(at, seen.result.href)).arrayBuffer());
    if (createHash('sha256').update(bytes).digest('hex') !== seen.result.sha256)
      wrong.push(`report ${jobId} has other bytes than it says`);
    const listed = z.object({ jobs: z.array(job) }).parse(await (await ask(at, 'report-jobs')).json());
    if (listed.jobs.filter((each) => each.jobId === jobId).length !== 1)
      wrong.push(`report ${jobId} is not listed once`);
  }
  return wrong;
}
