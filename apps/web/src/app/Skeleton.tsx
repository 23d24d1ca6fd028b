import { useWords } from '../words/useWords.ts';

/** The shape of what is coming, where it takes a moment. */
export function Skeleton() {
  const w = useWords();
  return (
    <section className="page" aria-busy="true">
      <p className="unseen" role="status">
        {w.loading}
      </p>
      <div className="bone bone-title" />
      <div className="bone bone-card" />
      <div className="bone bone-card" />
      <div className="bone bone-line" />
    </section>
  );
}
