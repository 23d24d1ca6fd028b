import { z } from 'zod';
import type { Client } from './client.ts';

const severity = z.enum(['critical', 'major', 'minor', 'notice']);
const finding = z.object({
  ruleId: z.string(),
  severity,
  basis: z.string(),
  outcome: z.string(),
  about: z.object({ kind: z.string(), code: z.string() }),
  message: z.string(),
  state: z.enum(['open', 'answered', 'resolved']),
});
export type Finding = z.output<typeof finding>;
const page = z.object({ findings: z.array(finding), next: z.string().nullish() });

export const severities = severity.options;

/** Every finding of the operation: the heaviest first, broken ones before doubtful ones, cautions last. */
export async function allFindings(client: Client, operationId: string): Promise<readonly Finding[]> {
  const found: Finding[] = [];
  let after: string | null = null;
  do {
    const from: string = after === null ? '' : `&after=${encodeURIComponent(after)}`;
    const answer: z.output<typeof page> = await client.get(
      `/operations/${operationId}/findings?state=all&limit=1000${from}`,
      page,
    );
    found.push(...answer.findings);
    after = answer.next ?? null;
  } while (after !== null);
  const outcomes = ['broken', 'unknown', 'due', 'caution'];
  const key = (one: Finding): number =>
    (one.outcome === 'caution' ? 100 : 0) + severities.indexOf(one.severity) * 10 + outcomes.indexOf(one.outcome);
  return found.toSorted(
    (a, b) => key(a) - key(b) || a.ruleId.localeCompare(b.ruleId) || a.about.code.localeCompare(b.about.code),
  );
}

/** The findings as a file that a reader can compare line by line. */
export function findingsText(findings: readonly Finding[]): string {
  const lines = findings.map((one) =>
    [one.severity, one.outcome, one.state, one.ruleId, `${one.about.kind} ${one.about.code}`, one.message].join(' | '),
  );
  return `${lines.join('\n')}\n`;
}
