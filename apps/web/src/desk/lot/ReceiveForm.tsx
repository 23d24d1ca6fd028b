import { v7 } from 'uuid';
import { materialName } from '../../lots/materialName.ts';
import { useTypedTexts } from '../../tank/useTyped.ts';
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
  const { values, set, done, begun } = useTypedTexts(['lot', 'new'], () => ({
    material: materials[0]?.id ?? '',
    code: '',
    supplierLot: '',
    value: '',
    unit: '[lb_av]',
    expiresOn: '',
  }));
  const { code, supplierLot, value, unit, expiresOn } = values;
  // A material may have been given up since it was chosen.
  const materialId = materials.find(({ id }) => id === values.material)?.id ?? '';
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
      begun={begun}
      onDone={() => done({ code: '', supplierLot: '', value: '' })}
    >
      <SelectEntry
        label={w.material}
        value={materialId}
        onChange={set('material')}
        options={[
          ...(materialId === '' ? [['', '–'] as const] : []),
          ...materials.map(({ id }) => [id, materialName(local, id, Date.now())] as const),
        ]}
      />
      <TextEntry label={w.code} value={code} onChange={set('code')} />
      <TextEntry label={w.supplierLot} value={supplierLot} onChange={set('supplierLot')} />
      <div className="with-unit">
        <FigureEntry label={w.quantity('')} value={value} onChange={set('value')} />
        <SelectEntry label={w.unit} value={unit} onChange={set('unit')} options={massesAndVolumes} />
      </div>
      <TextEntry label={w.expires} type="date" value={expiresOn} onChange={set('expiresOn')} optional />
    </RecordForm>
  );
}
