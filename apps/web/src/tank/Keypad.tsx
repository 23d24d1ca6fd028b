import { useTankWords } from './useTank.ts';

const keys = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '.', '0', '⌫'] as const;

/** What the text becomes when a key is pressed: one decimal sign, no more digits than a reading has. */
export function pressed(text: string, key: string): string {
  if (key === '⌫') return text.slice(0, -1);
  if (key === '.') return text.includes('.') ? text : text === '' ? '0.' : `${text}.`;
  const next = text === '0' ? key : text + key;
  return next.replace('.', '').length > 9 ? text : next;
}

/** Large keys for a thumb in a wet glove. */
export function Keypad({ text, onChange }: { readonly text: string; readonly onChange: (text: string) => void }) {
  const { w, language } = useTankWords();
  return (
    <div className="keypad" role="group" aria-label={w.f_amount}>
      {keys.map((key) => (
        <button
          key={key}
          type="button"
          className="key"
          onClick={() => onChange(pressed(text, key))}
          aria-label={key === '⌫' ? w.erase : key === '.' ? w.decimalPoint : key}
        >
          {key === '.' && language === 'es' ? ',' : key}
        </button>
      ))}
    </div>
  );
}
