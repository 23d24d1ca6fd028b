import { useWordsOf } from '../../words/useWords.ts';
import '../desk.css';
import { OperationForm } from './OperationForm.tsx';
import { setupWords } from './words.ts';

/** For somebody who has signed in and belongs to no operation yet. */
export default function FirstOperation() {
  const w = useWordsOf(setupWords);
  return (
    <section className="stack">
      <h2>{w.s_operation}</h2>
      <p className="faint">{w.intro}</p>
      <OperationForm />
    </section>
  );
}
