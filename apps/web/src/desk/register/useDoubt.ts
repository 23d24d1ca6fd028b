import { useWordsOf } from '../../words/useWords.ts';
import type { Ready } from '../ready.tsx';
import type { Fact } from '../RecordForm.tsx';
import { doubtIn } from './doubt.ts';
import { isRegisterType } from './members.ts';
import { registerWords } from './words.ts';

/** What is asked, in words, before something new is registered; null where nothing is doubtful. */
export function useDoubt({ engine }: Pick<Ready, 'engine'>): (facts: readonly Fact[]) => string | null {
  const w = useWordsOf(registerWords);
  return ([fact]) => {
    if (fact === undefined || !isRegisterType(fact.type)) return null;
    const doubt = doubtIn(fact.type, fact.data, engine.domain);
    return doubt === null ? null : w[doubt];
  };
}
