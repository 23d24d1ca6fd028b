import { useState } from 'react';
import { v7 } from 'uuid';
import { useWordsOf } from '../../words/useWords.ts';
import type { Ready } from '../ready.tsx';
import { RecordForm } from '../RecordForm.tsx';
import { dataOf, drafted } from './draft.ts';
import { Fields } from './Fields.tsx';
import { doubtIn } from './doubt.ts';
import { registers, type RegisterType } from './members.ts';
import { registerWords } from './words.ts';

/** Something new in a register. */
export function RegisterNew({ local, type }: { readonly local: Ready; readonly type: RegisterType }) {
  const w = useWordsOf(registerWords);
  const { members, id } = registers[type];
  const [form, setForm] = useState(() => drafted(members, {}));
  return (
    <RecordForm
      local={local}
      facts={() => [{ type, data: dataOf(members, form, { [id]: v7() }) }]}
      doubt={([fact]) => {
        const doubt = fact === undefined ? null : doubtIn(type, fact.data, local.engine.domain.numberIn);
        return doubt === null ? null : w[doubt];
      }}
      onDone={() => setForm(drafted(members, {}))}
    >
      <Fields members={members} form={form} onChange={setForm} />
    </RecordForm>
  );
}
