import { equalBytes, hex } from './bytes.ts';
import type { JudgedEvidence } from './evidence.ts';
import type { HashList } from './hash-list.ts';
import { locate } from './locate.ts';
import type { FaultList } from './log-report.ts';
import { verifyInclusion } from './proof-verify.ts';
import { clockSkew } from './read-log.ts';
import type { LogRead } from './read-log.ts';

/** A checkpoint may be some hours old when somebody sees it, in milliseconds. */
const checkpointAge = 24 * 3_600_000;

/** How the log stands to one piece of evidence. `beyond`: the evidence covers more entries than there are. */
export type Comparison = 'agrees' | 'differs' | 'beyond';

export function compare(
  { size, root }: JudgedEvidence,
  roots: ReadonlyMap<number, Uint8Array>,
  length: number,
): Comparison {
  if (size > length) return 'beyond';
  const found = roots.get(size);
  return found !== undefined && equalBytes(found, root) ? 'agrees' : 'differs';
}

/** What the entries are compared with, to say exactly which is wrong: leaf hashes that lead to a signed root. */
export interface SignedLeaves {
  readonly hashes: HashList;
  readonly evidence: JudgedEvidence;
}

/** The stored leaf hashes, where they lead to the root of some evidence; of several, the largest. */
export function signedLeaves(
  hashes: HashList,
  roots: ReadonlyMap<number, Uint8Array>,
  evidence: readonly JudgedEvidence[],
): SignedLeaves | null {
  const fitting = evidence.filter((each) => each.size > 0 && compare(each, roots, hashes.length) === 'agrees');
  const largest = fitting.sort((a, b) => b.size - a.size)[0];
  return largest === undefined ? null : { hashes, evidence: largest };
}

/** Names each entry that was altered, removed, put in or moved. */
export function locateFaults({ leaves, stamps }: LogRead, signed: SignedLeaves, faults: FaultList): void {
  const { label, size } = signed.evidence;
  const claimed = stamps.map(({ seq }) => seq);
  for (const { kind, seq } of locate(leaves, claimed, signed.hashes, size)) {
    const what = {
      altered: `entry ${seq} was altered: its bytes are not those that ${label} covers`,
      missing: `entry ${seq} is missing: ${label} covers it`,
      added: `the entry at place ${seq} was put in: ${label} does not cover it`,
      moved: `entry ${seq} is not in its place`,
    };
    faults.add({ kind, seq, what: what[kind] });
  }
}

/** Checks the entries of a part of a log, each by the number in it. */
export function checkPart({ leaves, stamps }: LogRead, { hashes, evidence }: SignedLeaves, faults: FaultList): void {
  stamps.forEach(({ seq }, place) => {
    if (seq === null) return;
    if (seq >= evidence.size) {
      faults.add({ kind: 'added', seq, what: `entry ${seq} is not covered by ${evidence.label}` });
    } else if (!equalBytes(leaves.at(place), hashes.at(seq))) {
      const what = `entry ${seq} was altered: its bytes are not those that ${evidence.label} covers`;
      faults.add({ kind: 'altered', seq, what });
    }
  });
}

/** Says between which sizes the entries stopped being what evidence has seen. */
export function rangeFaults(
  compared: readonly { readonly evidence: JudgedEvidence; readonly comparison: Comparison }[],
  length: number,
  faults: FaultList,
): void {
  for (const { evidence, comparison } of compared) {
    const { label, size } = evidence;
    if (comparison === 'differs') {
      const agreeing = compared.filter((each) => each.comparison === 'agrees' && each.evidence.size < size);
      const from = Math.max(0, ...agreeing.map((each) => each.evidence.size));
      const what = `the entries do not have the root of ${label} (size ${size}): something among entries ${from} to ${size - 1} is not as it was`;
      faults.add({ kind: 'root', seq: from, before: size, what });
    } else if (comparison === 'beyond') {
      const what = `${label} covers ${size} entries, but only ${length} are here: the log was cut short, put back to an older state, or taken out before that checkpoint was made`;
      faults.add({ kind: 'shorter', seq: length, before: size, what });
    }
  }
}

/** Two signatures of one log under different roots of one size: nobody can explain that away. */
export function forkFaults(evidence: readonly JudgedEvidence[], faults: FaultList): void {
  const first = new Map<number, JudgedEvidence>();
  for (const each of evidence.filter(({ logSigned }) => logSigned)) {
    const other = first.get(each.size) ?? each;
    first.set(each.size, other);
    if (equalBytes(other.root, each.root)) continue;
    const roots = `${hex(other.root).slice(0, 16)}… and ${hex(each.root).slice(0, 16)}…`;
    const what = `${other.label} and ${each.label} are both signed by the log, for the same ${each.size} entries, with different roots (${roots}): the log was shown in two versions. Keep both: together they prove it`;
    faults.add({ kind: 'fork', seq: null, what });
  }
}

/** Holds the entries against proof files. */
export function proofFaults(leaves: HashList, evidence: readonly JudgedEvidence[], faults: FaultList): void {
  for (const { proof, label, size, root } of evidence) {
    if (proof === undefined || proof.index >= leaves.length) continue;
    if (verifyInclusion(leaves.at(proof.index), proof.index, size, proof.path, root)) continue;
    const what = `entry ${proof.index} is not the entry that ${label} shows`;
    faults.add({ kind: 'proof', seq: proof.index, what });
  }
}

/** Holds the times in the entries against a dated outside checkpoint: what it has is older, what it lacks is newer. */
export function dateFaults({ stamps }: LogRead, { label, size, seen }: JudgedEvidence, faults: FaultList): void {
  if (seen === undefined) return;
  const iso = (time: number): string => new Date(time).toISOString();
  stamps.forEach(({ seq, recordedAt }) => {
    // An entry that cannot be read has been reported as such.
    if (seq === null) return;
    const recorded = (): string => `entry ${seq} says it was recorded ${iso(recordedAt)}`;
    if (seq < size && recordedAt > seen.latest + clockSkew) {
      const what = `${recorded()}, but ${label}, seen ${iso(seen.latest)}, has it already: a clock was ahead`;
      faults.add({ kind: 'time', seq, what });
    } else if (seq >= size && recordedAt < seen.earliest - checkpointAge) {
      const what = `${recorded()}, but ${label}, seen ${iso(seen.earliest)}, does not have it: a clock was set back`;
      faults.add({ kind: 'time', seq, what });
    }
  });
}
