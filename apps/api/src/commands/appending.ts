import { utcText } from '@furrowmark/domain';
import { importPreview, type ImportPreview, type ImportRequest } from '@furrowmark/reports';
import { z } from 'zod';
import { Appender } from '../append/index.ts';
import type { Service } from '../service.ts';
import { Refusal } from './command.ts';

const problem = z.object({
  detail: z.string(),
  errors: z.array(z.object({ pointer: z.string().optional(), detail: z.string() })),
});
/** What became of one record. */
export const result = z.discriminatedUnion('status', [
  z.object({ status: z.literal('recorded') }),
  z.object({ status: z.literal('duplicate') }),
  z.object({ status: z.literal('refused'), problem }),
]);
export type Result = z.output<typeof result>;
const answered = z.object({ results: z.array(result) });

/** A way to append: to a service that runs somewhere, or to the data on this machine. */
export interface Appending {
  append(records: readonly unknown[]): Promise<readonly Result[]>;
}

/** Through a running service, as the person the token stands for. */
export async function appendingTo(url: string, token: string, wanted: string | undefined): Promise<Appending> {
  const base = `${url.replace(/\/+$/, '')}/api/v1/operations`;
  const ask = async (address: string, body?: string): Promise<unknown> => {
    const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json' };
    for (let tries = 0; ; tries += 1) {
      const answer = await fetch(address, { headers, ...(body === undefined ? {} : { method: 'POST', body }) });
      if (answer.ok) return answer.json();
      if (answer.status !== 503 || tries === 20) throw new Refusal(await words(answer));
      await new Promise((done) => setTimeout(done, Number(answer.headers.get('retry-after') ?? 1) * 1_000));
    }
  };
  const operationId = wanted ?? (await onlyOperation(await ask(base)));
  return {
    append: async (records) =>
      answered.parse(await ask(`${base}/${operationId}/records`, JSON.stringify({ records }))).results,
  };
}

/** What a running service says a file would become. */
export async function previewBy(
  url: string,
  token: string,
  operationId: string,
  request: ImportRequest,
): Promise<ImportPreview> {
  const { from, to } = request;
  const text = (at: number | undefined) => (at === undefined ? undefined : utcText(at));
  const answer = await fetch(`${url.replace(/\/+$/, '')}/api/v1/operations/${operationId}/import/preview`, {
    method: 'POST',
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    body: JSON.stringify({ ...request, from: text(from), to: text(to) }),
  });
  if (!answer.ok) throw new Refusal(await words(answer));
  return importPreview.parse(await answer.json());
}

async function words(answer: Response): Promise<string> {
  const body: unknown = await answer.json().catch(() => null);
  const said = z.object({ detail: z.string() }).safeParse(body);
  return said.success ? said.data.detail : `the service answered ${answer.status}.`;
}

function onlyOperation(body: unknown): string {
  const { operations } = z
    .object({ operations: z.array(z.object({ operationId: z.string(), name: z.string() })) })
    .parse(body);
  const [first, ...others] = operations;
  if (first === undefined) throw new Refusal('the token opens no operation.');
  if (others.length > 0)
    throw new Refusal(
      `the token opens several operations; choose one with --operation:\n${operations.map((one) => `  ${one.operationId}  ${one.name}`).join('\n')}`,
    );
  return first.operationId;
}

/** Straight into the data on this machine. The log names an account of its own for it: nobody's hand is borrowed. */
export async function appendingHere(
  { context, createAccount }: Service,
  operationId: string,
  file: string,
): Promise<Appending> {
  const name = `Import of ${file}`;
  const { accountId } = await createAccount({ name });
  const appender = context.get(Appender);
  return {
    append: async (records) => {
      const answer = await appender.append({ accountId, name, operationId, role: 'manager' }, records);
      if (answer === null) throw new Refusal('too much is waiting to be recorded; start the import again.');
      return z.array(result).parse(answer.results);
    },
  };
}
