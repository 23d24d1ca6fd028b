/**
 * An append-only log that shows when it was rewritten: canonical JSON (RFC 8785), a Merkle tree (RFC 9162), signed
 * checkpoints, tiles and offline proofs (C2SP). Pure: no clock, no randomness, no I/O; it runs in the browser too.
 */
export { base64, equalBytes, fromBase64, hex, textOf, utf8 } from './bytes.ts';
export { canonicalBytes, canonicalText, isCanonical, maxDepth, NotCanonical, parseCanonical } from './canonical.ts';
export type { Checked } from './checked.ts';
export { checkpointText, openCheckpoint, parseCheckpointText, signCheckpoint } from './checkpoint.ts';
export type { Checkpoint, OpenedCheckpoint } from './checkpoint.ts';
export { emptyFrontier, extend, nodesForRoot, rootOf, TreeAppender } from './frontier.ts';
export type { Frontier, NodeId, TreeNode } from './frontier.ts';
export { isKeyName, parseVerifierKey, signerFromSeed, verifierKey, verifierKeyText, verifySignature } from './key.ts';
export type { Signer, VerifierKey } from './key.ts';
export { emptyRoot, hashLength, leafHash, nodeHash } from './merkle-hash.ts';
export { openNote, parseNote, signNote } from './note.ts';
export type { Note, NoteSignature, OpenedNote, VerifiedSignature } from './note.ts';
export { nodesForConsistency, nodesForInclusion, proofFrom } from './proof-plan.ts';
export type { ProofPlan } from './proof-plan.ts';
export { verifyConsistency, verifyInclusion } from './proof-verify.ts';
export type { Count } from './proof-verify.ts';
export { cosignatureTime, cosignedMessage } from './cosignature.ts';
export {
  entryBundle,
  longestEntry,
  nodesOfTile,
  parseEntryBundle,
  parseTilePath,
  tilePath,
  tileWidth,
  widthInTree,
} from './tiles.ts';
export type { Tile } from './tiles.ts';
export { parseTlogProof, tlogProofText, verifyTlogProof } from './tlog-proof.ts';
export type { TlogProof } from './tlog-proof.ts';
export { memberOf, originOf, readEnvelope } from './envelope.ts';
export type { Envelope } from './envelope.ts';
export type { Evidence, Seen } from './evidence.ts';
export { linesOf } from './lines.ts';
export type { EvidenceResult, Fault, LogReport, Verdict } from './log-report.ts';
export { NotReadable, packTar, unpackTar } from './tar.ts';
export type { FileToPack, PackedFile } from './tar.ts';
export { LogVerifier, verifyLog } from './verify-log.ts';
export type { VerifyOptions } from './verify-log.ts';
