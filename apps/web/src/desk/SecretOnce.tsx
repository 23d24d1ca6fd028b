import { useState } from 'react';
import { useWordsOf } from '../words/useWords.ts';
import { deskWords } from './words.ts';

/** A link that opens something, shown this once, to be handed over. */
export function SecretOnce({ label, link }: { readonly label: string; readonly link: string }) {
  const w = useWordsOf(deskWords);
  const [copied, setCopied] = useState(false);
  return (
    <div className="notice stack" role="status">
      <p>
        <strong>{label}</strong> {w.shownOnce}
      </p>
      <label className="stack">
        <span className="faint small">{w.link}</span>
        <input type="text" readOnly value={link} onFocus={(event) => event.target.select()} />
      </label>
      <p>
        <button
          type="button"
          className="button quiet"
          onClick={() =>
            void navigator.clipboard.writeText(link).then(
              () => setCopied(true),
              () => setCopied(false),
            )
          }
        >
          {copied ? w.copied : w.copy}
        </button>
      </p>
    </div>
  );
}
