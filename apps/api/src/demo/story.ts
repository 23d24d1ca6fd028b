import { severities, type Finding } from './findings.ts';
import type { Written } from './season/index.ts';

export interface Story {
  readonly year: number;
  readonly records: readonly Written[];
  readonly findings: readonly Finding[];
  readonly files: readonly string[];
  readonly folder: string;
  readonly url: string;
  readonly token: string;
  readonly operationId: string;
  /** How wide the terminal is. */
  readonly width: number;
}

const marks: Readonly<Record<string, string>> = { broken: '✕', unknown: '?', due: '○', caution: '◐' };
const WORST = 8;

/** The season in half a screen: what was recorded, what the rules say of it, and where to look further. */
export function tell(it: Story): string {
  const many = (type: string, what: string): string =>
    `${it.records.filter((record) => record.type === type).length} ${what}`;
  const recorded = [
    `${it.records.length} records`,
    many('batch.opened', 'batches'),
    many('application.made', 'applications'),
    many('harvest.made', 'harvests'),
  ];
  const standing = it.findings.filter((one) => one.state !== 'resolved');
  const cautions = standing.filter((one) => one.outcome === 'caution').length;
  const loud = standing.filter((one) => one.outcome !== 'caution');
  const counts = severities
    .map((severity) => [severity, loud.filter((one) => one.severity === severity).length] as const)
    .filter(([, count]) => count > 0)
    .map(([severity, count]) => `${count} ${severity}`);
  const answered = it.findings.filter((one) => one.state === 'answered').length;
  const resolved = it.findings.length - standing.length;
  return [
    `Quillfen Growers, an invented farm: its season of ${it.year}, recorded through HTTP as a new operation.`,
    '',
    `Recorded   ${recorded.join(' · ')}`,
    `Findings   ${counts.join(' · ')} · ${cautions} cautions   (${answered} answered; ${resolved} more resolved by an amendment)`,
    ...worst(standing).map((one) => line(one, it.width)),
    '',
    `Files      ${it.folder}`,
    ...listed(it.files, it.width - 11).map((text) => `           ${text}`),
    `Look       ${it.url}/#token=${it.token}&operation=${it.operationId}`,
    `           (read-only, as the inspector; the other tokens are in access.json)`,
    '',
    'Furrowmark reports; it does not certify. Local codes, your certifier and labels come first.',
  ].join('\n');
}

/** The heaviest finding of each rule, so that one lot's recall does not hide the rest. */
function worst(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>();
  return findings.filter((one) => !seen.has(one.ruleId) && seen.add(one.ruleId)).slice(0, WORST);
}

function line({ severity, outcome, about, message }: Finding, width: number): string {
  const text = `  ${marks[outcome] ?? '·'} ${severity.padEnd(8)} ${about.code}: ${message}`;
  return text.length <= width ? text : `${text.slice(0, width - 1).trimEnd()}…`;
}

/** Names, as many on a line as fit. */
function listed(names: readonly string[], width: number): readonly string[] {
  const lines: string[] = [];
  for (const name of names) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + name.length + 2 <= width) lines[lines.length - 1] = `${last}, ${name}`;
    else lines.push(name);
  }
  return lines;
}
