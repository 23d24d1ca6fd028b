import { Link } from 'wouter';
import { clockText } from '../clock/text.ts';
import { session } from '../session/session.ts';
import { useExternal } from '../store/external.ts';
import { held } from '../store/held.ts';
import { useWords } from '../words/useWords.ts';
import { reception } from './sync.ts';

/** One line, always in view: what waits, what was not taken, when the service was last heard. It leads to the list. */
export function ReceptionLine() {
  const w = useWords();
  const { kind, busy } = useExternal(reception);
  const now = useExternal(session);
  const store = useExternal(held);
  const queue = store?.queue ?? [];
  const waits = queue.filter(({ state }) => state.kind === 'waiting').length;
  const refused = queue.filter(({ state }) => state.kind === 'refused').length;
  const zone = now?.timeZone ?? undefined;
  const heardAt = store?.heardAt ?? null;
  const at = heardAt === null || zone === undefined ? null : clockText(heardAt, zone);
  const parts: string[] = [];
  if (refused > 0) parts.push(w.nRefused(refused));
  if (kind === 'ended' || now?.ended === true) parts.push(w.nWaitSignIn(waits));
  else if (waits > 0) parts.push(busy && kind !== 'unreachable' ? w.nSending(waits) : w.nWaiting(waits));
  else if (kind === 'unreachable') parts.push(at === null ? w.noReceptionYet : w.noReception(at));
  else if (kind === 'refused') parts.push(w.cannotSend);
  else if (refused === 0) parts.push(at === null ? w.neverHeard : w.allSent(at));
  const tone =
    refused > 0 || kind === 'ended' || kind === 'refused'
      ? 'bad'
      : waits > 0 || kind === 'unreachable'
        ? 'wait'
        : 'good';
  return (
    <p className={`reception ${tone}`} role="status">
      <Link href="/waiting">{parts.join(' · ')}</Link>
    </p>
  );
}
