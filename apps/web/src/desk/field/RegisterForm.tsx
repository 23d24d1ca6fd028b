import { v7 } from 'uuid';
import { useTypedTexts } from '../../tank/useTyped.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { RecordForm } from '../RecordForm.tsx';
import { areas } from '../units.ts';
import { exchanged, ringIn } from './projection.ts';
import { fieldWords } from './words.ts';

const kinds = ['field', 'bed', 'block', 'tunnel', 'bench', 'trays'] as const;
const lands = ['organic', 'transition', 'conventional'] as const;

/** A new piece of ground: its name, size and, where wanted, its boundary. */
export function RegisterForm({ local, onDone }: { readonly local: Ready; readonly onDone?: () => void }) {
  const w = useWordsOf(fieldWords);
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
  const ring = outline.trim() === '' ? null : ringIn(outline);
  const turned = ring !== null && exchanged(ring);
  const wrong = outline.trim() !== '' && (ring === null || turned);
  return (
    <RecordForm
      local={local}
      alsoBy={[]}
      facts={() =>
        wrong
          ? null
          : [
              {
                type: 'field.registered',
                data: {
                  ...{ fieldId: v7(), code, kind, landStatus: land, area: { value: Number(size), unit } },
                  ...(ring === null ? {} : { boundary: { type: 'Polygon', coordinates: [ring] } }),
                  ...(buffer === '' ? {} : { buffer }),
                },
              },
            ]
      }
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
      <TextEntry
        label={w.boundary}
        help={turned ? w.boundaryTurned : wrong ? w.boundaryWrong : w.boundaryHelp}
        value={outline}
        onChange={set('outline')}
        lines
        optional
      />
      <TextEntry label={w.buffer} value={buffer} onChange={set('buffer')} optional />
    </RecordForm>
  );
}
