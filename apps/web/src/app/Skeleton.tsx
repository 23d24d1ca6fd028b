import { useWords } from '../words/useWords.ts';

/** The shape of what is coming, where it takes a moment; under its heading where that is known already. */
export function Skeleton({ title }: { readonly title?: string }) {
  const w = useWords();
  return (
    <section className="page" aria-busy="true">
      <p className="unseen" role="status">
        {w.loading}
      </p>
      {title === undefined ? <div className="bone bone-title" /> : <h1>{title}</h1>}
      <div className="bone bone-card" />
      <div className="bone bone-card" />
      <div className="bone bone-line" />
    </section>
  );
}
