import { useState } from 'react';
import { v7 } from 'uuid';
import type { Ready } from '../ready.tsx';
import { RecordForm } from '../RecordForm.tsx';
import { dataOf, drafted } from './draft.ts';
import { Fields } from './Fields.tsx';
import { registers, type RegisterType } from './members.ts';
import { useDoubt } from './useDoubt.ts';

/** Something new in a register. */
export function RegisterNew({ local, type }: { readonly local: Ready; readonly type: RegisterType }) {
  const doubt = useDoubt(local);
  const { members, id } = registers[type];
  const [form, setForm] = useState(() => drafted(members, {}));
  return (
    <RecordForm
      local={local}
      facts={() => [{ type, data: dataOf(members, form, { [id]: v7() }) }]}
      doubt={doubt}
      onDone={() => setForm(drafted(members, {}))}
    >
      <Fields members={members} form={form} onChange={setForm} />
    </RecordForm>
  );
}
