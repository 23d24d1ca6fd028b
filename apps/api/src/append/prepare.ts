import { parseDraft, type Draft } from '@furrowmark/domain';
import { canonicalText } from '@furrowmark/log';
import type { Member } from '../access/index.ts';
import { clientText } from './content.ts';
import { refused, type RecordResult } from './outcome.ts';
import { permit } from './permit.ts';
import { seal, type Opening } from '../log/index.ts';

/** A record that may be recorded, unless its id turns out to be known. */
export interface Prepared {
  readonly status: 'prepared';
  readonly id: string;
  readonly draft: Draft;
  /** RFC 8785 text of the client's members with personal values open: what "same content" compares. */
  readonly content: string;
  /** The client's members as the log will hold them, personal values sealed. */
  readonly members: Readonly<Record<string, unknown>>;
  readonly openings: readonly Opening[];
  /** A recorder corrects only what it recorded itself; the id of the record to look at. */
  readonly ownOnly: string | null;
}

/** A record that is refused whatever the log holds. */
export type Refused = RecordResult & { readonly status: 'refused' };

/** Canonical bytes that one record may have. */
export const mostRecordBytes = 60_000;
// The longest values that the server's members may take.
const reserve = { seq: Number.MAX_SAFE_INTEGER, recordedAt: '2026-01-01T00:00:00.000Z' };

/** Reads, permits, seals and measures each record of a request; nothing here looks at other records. */
export function prepare(records: readonly unknown[], member: Member, now: number): (Prepared | Refused)[] {
  return records.map((input) => prepareOne(input, member, now));
}

function prepareOne(input: unknown, member: Member, now: number): Prepared | Refused {
  const parsed = parseDraft(input, { now });
  if (!parsed.ok) {
    const { code, detail, errors } = parsed.problem;
    return refused(idOf(input), code, detail, errors);
  }
  const { draft, sent } = parsed;
  const permission = permit(draft, member.role);
  if (permission.refusal !== null)
    return refused(sent.id, 'not-permitted', permission.refusal, [{ pointer: '/type', detail: permission.refusal }]);
  const { record, openings } = seal(sent);
  const content = clientText(sent);
  const size = sizeOf(content, record, member);
  if (size > mostRecordBytes) {
    return refused(
      sent.id,
      'record-too-large',
      `The record has ${size} bytes of canonical JSON; at most ${mostRecordBytes} are kept. Shorten it, or attach the long part as a document.`,
    );
  }
  const ownOnly = permission.ownOnly;
  return {
    status: 'prepared',
    id: sent.id,
    draft,
    content,
    members: defined(record),
    openings,
    ownOnly,
  };
}

/** Bytes that the server's members take at most: two ids, a time, a number, and their names. */
const serverMembers = 250;

/** The size of the record's canonical bytes at most; exact only where it comes near the limit, as it seldom does. */
function sizeOf(content: string, record: object, member: Member): number {
  const about = Buffer.byteLength(content) + serverMembers;
  if (about <= mostRecordBytes) return about;
  const envelope = { ...record, ...reserve, operationId: member.operationId, recordedBy: member.accountId };
  return Buffer.byteLength(canonicalText(defined(envelope)));
}

/** Without the members that are absent (zod leaves some as undefined). */
function defined(object: object): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined));
}

function idOf(input: unknown): string | null {
  const id: unknown = typeof input === 'object' && input !== null && 'id' in input ? input.id : null;
  return typeof id === 'string' ? id.slice(0, 200) : null;
}
