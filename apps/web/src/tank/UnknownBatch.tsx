import { Link } from 'wouter';
import { useTankWords } from './useTank.ts';

/** A link to a batch (or a form) that this phone does not know. */
export function UnknownBatch() {
  const { w } = useTankWords();
  return (
    <section className="page narrow">
      <h1>{w.unknownBatch}</h1>
      <p>
        <Link href="/" className="button quiet">
          {w.all}
        </Link>
      </p>
    </section>
  );
}
