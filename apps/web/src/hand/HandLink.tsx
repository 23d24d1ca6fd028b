import { Link } from 'wouter';
import { session } from '../session/session.ts';
import { useExternal } from '../store/external.ts';
import { useWordsOf } from '../words/useWords.ts';
import { initialsOf } from './initials.ts';
import { handWords } from './words.ts';

/** On a shared phone, always in view: whose hand it is in. It leads to the PIN. */
export function HandLink() {
  const w = useWordsOf(handWords);
  const now = useExternal(session);
  if (now?.shared !== true) return null;
  const name = now.hand?.name ?? null;
  return (
    <Link
      href="/hand"
      className={name === null ? 'hand-link nobody' : 'hand-link'}
      aria-label={name === null ? w.title : w.holds(name)}
    >
      {name === null ? '?' : initialsOf(name)}
    </Link>
  );
}
