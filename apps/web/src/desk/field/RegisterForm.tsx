import { useState } from 'react';
import { v7 } from 'uuid';
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
  const [code, setCode] = useState('');
  const [kind, setKind] = useState<string>('field');
  const [land, setLand] = useState<string>('organic');
  const [size, setSize] = useState('');
  const [unit, setUnit] = useState('[acr_us]');
  const [outline, setOutline] = useState('');
  const [buffer, setBuffer] = useState('');
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
      onDone={() => {
        setCode('');
        setSize('');
        setOutline('');
        onDone?.();
      }}
    >
      <TextEntry label={w.code} value={code} onChange={setCode} />
      <SelectEntry
        label={w.kind}
        value={kind}
        onChange={setKind}
        options={kinds.map((each) => [each, w[`kind_${each}`]] as const)}
      />
      <SelectEntry
        label={w.status}
        value={land}
        onChange={setLand}
        options={lands.map((each) => [each, w[`land_${each}`]] as const)}
      />
      <div className="with-unit">
        <FigureEntry label={w.size} value={size} onChange={setSize} />
        <SelectEntry label={w.unit} value={unit} onChange={setUnit} options={areas} />
      </div>
      <TextEntry
        label={w.boundary}
        help={turned ? w.boundaryTurned : wrong ? w.boundaryWrong : w.boundaryHelp}
        value={outline}
        onChange={setOutline}
        lines
        optional
      />
      <TextEntry label={w.buffer} value={buffer} onChange={setBuffer} optional />
    </RecordForm>
  );
}
