import { useState } from 'react';
import { v7 } from 'uuid';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { RecordForm } from '../RecordForm.tsx';
import { massesAndVolumes } from '../units.ts';
import { lotWords } from './words.ts';

/** A lot that came in. */
export function ReceiveForm({ local }: { readonly local: Ready }) {
  const w = useWordsOf(lotWords);
  const materials = local.season.materials().filter(({ retired }) => retired === undefined);
  const [materialId, setMaterial] = useState(materials[0]?.id ?? '');
  const [code, setCode] = useState('');
  const [supplierLot, setSupplier] = useState('');
  const [value, setValue] = useState('');
  const [unit, setUnit] = useState('[lb_av]');
  const [expiresOn, setExpires] = useState('');
  return (
    <RecordForm
      local={local}
      facts={() => [
        {
          type: 'lot.received',
          data: {
            ...{ lotId: v7(), code, materialId, supplierLot, quantity: { value: Number(value), unit } },
            ...(expiresOn === '' ? {} : { expiresOn }),
          },
        },
      ]}
      onDone={() => {
        setCode('');
        setSupplier('');
        setValue('');
      }}
    >
      <SelectEntry
        label={w.material}
        value={materialId}
        onChange={setMaterial}
        options={materials.map((each) => [each.id, each.registered.name] as const)}
      />
      <TextEntry label={w.code} value={code} onChange={setCode} />
      <TextEntry label={w.supplierLot} value={supplierLot} onChange={setSupplier} />
      <div className="with-unit">
        <FigureEntry label={w.quantity('')} value={value} onChange={setValue} />
        <SelectEntry label={w.unit} value={unit} onChange={setUnit} options={massesAndVolumes} />
      </div>
      <TextEntry label={w.expires} type="date" value={expiresOn} onChange={setExpires} optional />
    </RecordForm>
  );
}
