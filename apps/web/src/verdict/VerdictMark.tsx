import type { Verdict } from '@furrowmark/rules';
import { useWords } from '../words/useWords.ts';

/** Shapes that are told apart without colour. */
export const shapes: Readonly<Record<Verdict, string>> = {
  met: '●',
  caution: '◐',
  broken: '✕',
  due: '○',
  unknown: '?',
  notApplicable: '–',
};

/** A verdict: shape, word, then colour. `word` replaces the usual one where the rule's basis asks for another. */
export function VerdictMark({ verdict, word }: { readonly verdict: Verdict; readonly word?: string }) {
  const w = useWords();
  const usual = { ...w, caution: w.cautionWord }[verdict];
  return (
    <span className={`verdict ${verdict}`}>
      <span aria-hidden="true">{shapes[verdict]}</span>
      {word ?? usual}
    </span>
  );
}
