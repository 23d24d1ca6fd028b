import type { EvidenceResult, LogReport, Seen } from '@furrowmark/log';
import { lateFromHours } from './contents.ts';
import type { ArchiveReport } from './verify.ts';

/** What the program ends with, for scripts. The worst thing found decides. */
export const exitCodes = { genuine: 0, altered: 1, unreadable: 2, notWitnessed: 3, incomplete: 4 } as const;

/** The exit code of a report. */
export function exitCodeOf({ log, seals, documents, partial }: ArchiveReport): number {
  const besides = (seals?.altered.length ?? 0) + (documents?.altered.length ?? 0) + (documents?.unnamed.length ?? 0);
  if (log.verdict === 'altered' || besides > 0) return exitCodes.altered;
  if (!partial && (documents?.missing.length ?? 0) > 0) return exitCodes.incomplete;
  return log.verdict === 'genuine' ? exitCodes.genuine : exitCodes.notWitnessed;
}

/** The report in plain words, a line each. */
export function reportLines(report: ArchiveReport): string[] {
  const { log, partial } = report;
  return [
    `Log: ${log.origin ?? 'unknown'}`,
    partial
      ? `PARTIAL: ${log.entries} of ${log.size} entries are here; the others were left out. What they say is not known.`
      : `Entries: ${log.entries}`,
    '',
    ...verdictLines(report),
    '',
    ...keyLines(report),
    ...log.evidence.map(evidenceLine),
    ...successionLines(log),
    ...besideLines(report),
    ...restoredLines(report),
    ...lateLines(report),
    '',
    'No log can show that what was recorded is true, complete or in time. It shows what was recorded, in which order,',
    'and whether it has been changed since somebody outside last saw a checkpoint.',
  ];
}

function verdictLines(report: ArchiveReport): string[] {
  const { log } = report;
  const { faults, further, genuineUpTo } = log;
  const beside = besideFaults(report);
  // What lies beside the log comes first: a genuine log around an altered document is not a genuine archive.
  const altered = beside.length === 0 ? [] : ['ALTERED, beside the log', ...beside, ''];
  if (log.verdict === 'altered') {
    const more = [...further].map(([kind, count]) => `  - and ${count} more of the kind "${kind}"`);
    const upTo = `The first ${genuineUpTo} entries are those that an outside checkpoint has seen.`;
    return [
      ...altered,
      'ALTERED',
      ...faults.map(({ what }) => `  - ${what}`),
      ...more,
      ...(genuineUpTo > 0 ? [upTo] : []),
    ];
  }
  if (log.verdict === 'genuine') {
    const when = log.witnessedAt === null ? 'at a time that nobody stated' : seenWords(log.witnessedAt);
    const after = `The ${log.size - genuineUpTo} entries after that are self-consistent, but not witnessed.`;
    return [
      ...altered,
      `GENUINE UP TO SIZE ${genuineUpTo}, WITNESSED ${when}`,
      ...(log.size > genuineUpTo ? [after] : []),
    ];
  }
  return [
    ...altered,
    'SELF-CONSISTENT, BUT NOT WITNESSED',
    'Everything in the log fits together. But whoever holds the signing key could have written all of it anew and signed',
    'it again. To rule that out, bring a checkpoint that was kept outside (printed, mailed, cosigned by a witness) with',
    '--against.',
  ];
}

function besideFaults({ seals, documents }: ArchiveReport): string[] {
  return [
    ...(seals?.altered ?? []).map((where) => `  - what stands behind the seal of ${where} is not what was sealed`),
    ...(documents?.altered ?? []).map((d) => `  - document ${d.sha256}, named by entry ${d.seq}, was altered`),
    ...(documents?.unnamed ?? []).map((name) => `  - document ${name} is named by no entry`),
  ];
}

function keyLines({ keyBrought, presentedKey }: ArchiveReport): string[] {
  if (keyBrought) return ['Key: the one that you brought.'];
  if (presentedKey === null) return ['Key: none was brought (--key), and none is here.'];
  return [
    `Key: ${presentedKey.trim()}`,
    '  This key is read from the archive itself, which proves nothing. Compare it with one from outside (--key).',
  ];
}

function evidenceLine({ label, outside, size, by, result, why, seen }: EvidenceResult): string {
  const who = { trusted: 'signature fits', own: "signature fits the log's own key", word: 'no signature', nobody: '' }[
    by
  ];
  const how = {
    agrees: `agrees (${who})`,
    differs: `DIFFERS (${who})`,
    beyond: `covers more than is here (${who})`,
    unusable: `does not count: ${why ?? ''}`,
  }[result];
  return `${outside ? 'Kept outside' : 'Presented'}: ${label}, size ${size}${seen === undefined ? '' : `, seen ${seenWords(seen)}`}: ${how}`;
}

function successionLines({ successions }: LogReport): string[] {
  return successions.map(({ seq, key, trusted }) =>
    trusted
      ? `Entry ${seq} hands the log over to the key ${key}, under a checkpoint that a trusted key signed.`
      : `Entry ${seq} names the key ${key}, but no checkpoint signed by a key that you brought covers that entry.`,
  );
}

function besideLines({ seals, documents, partial }: ArchiveReport): string[] {
  const lines: string[] = [];
  if (seals !== null) {
    lines.push(
      `Sealed members: ${seals.opened} opened and match, ${seals.withheld} withheld, ${seals.altered.length} altered`,
    );
  }
  if (documents !== null) {
    const { matching, missing, altered } = documents;
    lines.push(`Documents: ${matching} match, ${missing.length} missing, ${altered.length} altered`);
    if (!partial) lines.push(...missing.map((d) => `  - document ${d.sha256}, named by entry ${d.seq}, is missing`));
  }
  return lines;
}

function restoredLines({ restored }: ArchiveReport): string[] {
  return restored.map(({ seq, size, knownSize }) => {
    const known =
      knownSize === null ? '' : `, though a checkpoint of ${knownSize} was known: what is lost is said openly`;
    return `Entry ${seq} says that the log was put back from a backup of ${size ?? 'an unknown number of'} entries${known}.`;
  });
}

function lateLines({ late }: ArchiveReport): string[] {
  if (late.length === 0) return [];
  const longest = [...late].sort((a, b) => b.hours - a.hours).slice(0, 20);
  return [
    `Recorded ${lateFromHours} h or more after the event (for information): ${late.length} entries`,
    ...longest.map(({ seq, type, hours }) => `  - entry ${seq} (${type}): ${(hours / 24).toFixed(1)} days`),
  ];
}

const seenWords = ({ latest, words }: Seen): string => words ?? new Date(latest).toISOString().replace(/\.\d+Z$/, 'Z');
