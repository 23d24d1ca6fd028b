import { v7 } from 'uuid';
import { useTyped } from '../../tank/useTyped.ts';
import type { Ready } from '../ready.tsx';
import { RecordForm } from '../RecordForm.tsx';
import { dataOf, drafted, draftedAgain, type Drafted } from './draft.ts';
import { Fields } from './Fields.tsx';
import { registers, type RegisterType } from './members.ts';
import { useDoubt } from './useDoubt.ts';

/** Something new in a register. */
export function RegisterNew({ local, type }: { readonly local: Ready; readonly type: RegisterType }) {
  const doubt = useDoubt(local);
  const { members, id } = registers[type];
  const { values, set, done, begun } = useTyped(['register', type], () => ({ form: drafted(members, {}) }), formAgain);
  const { form } = values;
  return (
    <RecordForm
      local={local}
      facts={() => [{ type, data: dataOf(members, form, { [id]: v7() }) }]}
      doubt={doubt}
      begun={begun}
      onDone={() => done({ form: drafted(members, {}) })}
    >
      <Fields members={members} form={form} onChange={set('form')} />
    </RecordForm>
  );
}

const formAgain = ({ form }: { readonly form: Drafted }, kept: object) => ({
  form: draftedAgain(form, Reflect.get(kept, 'form')),
});
