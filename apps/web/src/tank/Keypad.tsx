import './keypad.css';
import { pressed } from './keys.ts';
import { useTankWords } from './useTank.ts';

const keys = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '.', '0', '⌫'] as const;

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
