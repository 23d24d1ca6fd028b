import { v7 } from 'uuid';
import { useTypedTexts } from '../../tank/useTyped.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { RecordForm } from '../RecordForm.tsx';
import { useDoubt } from '../register/useDoubt.ts';
import { areas } from '../units.ts';
import { boundaryIn } from './outline/corners.ts';
import { OutlineEntry } from './outline/OutlineEntry.tsx';
import { fieldWords } from './words.ts';

const kinds = ['field', 'bed', 'block', 'tunnel', 'bench', 'trays'] as const;
const lands = ['organic', 'transition', 'conventional'] as const;

/** A new piece of ground: its name, size and, where wanted, its boundary. */
export function RegisterForm({ local, onDone }: { readonly local: Ready; readonly onDone?: () => void }) {
  const w = useWordsOf(fieldWords);
  const doubt = useDoubt(local);
  const { values, set, done, begun } = useTypedTexts(['field', 'new'], () => ({
    code: '',
    kind: 'field',
    land: 'organic',
    size: '',
    unit: '[acr_us]',
    outline: '',
    buffer: '',
  }));
  const { code, kind, land, size, unit, outline, buffer } = values;
  return (
    <RecordForm
      local={local}
      alsoBy={[]}
      facts={() => [
        {
          type: 'field.registered',
          data: {
            ...{ fieldId: v7(), code, kind, landStatus: land, area: { value: Number(size), unit } },
            ...(outline.trim() === '' ? {} : { boundary: boundaryIn(outline) }),
            ...(buffer === '' ? {} : { buffer }),
          },
        },
      ]}
      doubt={doubt}
      begun={begun}
      onDone={() => {
        done({ code: '', size: '', outline: '' });
        onDone?.();
      }}
    >
      <TextEntry label={w.code} value={code} onChange={set('code')} />
      <SelectEntry
        label={w.kind}
        value={kind}
        onChange={set('kind')}
        options={kinds.map((each) => [each, w[`kind_${each}`]] as const)}
      />
      <SelectEntry
        label={w.status}
        value={land}
        onChange={set('land')}
        options={lands.map((each) => [each, w[`land_${each}`]] as const)}
      />
      <div className="with-unit">
        <FigureEntry label={w.size} value={size} onChange={set('size')} />
        <SelectEntry label={w.unit} value={unit} onChange={set('unit')} options={areas} />
      </div>
      <OutlineEntry value={outline} onChange={set('outline')} area={{ unit, take: set('size') }} />
      <TextEntry label={w.buffer} value={buffer} onChange={set('buffer')} optional />
    </RecordForm>
  );
}
