import { Link } from 'wouter';
import { roleOf, session } from '../session/session.ts';
import { useExternal } from '../store/external.ts';
import { useWords } from '../words/useWords.ts';

/** Before the first tank is registered: what comes first, and who does it. */
export function NoTankYet() {
  const w = useWords();
  const manages = roleOf(useExternal(session)) === 'manager';
  return (
    <>
      <p>{manages ? w.noTankYet : w.noTankYetAsk}</p>
      {manages && (
        <p>
          <Link href="/setup" className="button">
            {w.toSetUp}
          </Link>
        </p>
      )}
    </>
  );
}
