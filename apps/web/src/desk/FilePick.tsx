import { useId, useState } from 'react';
import { useWordsOf } from '../words/useWords.ts';
import { deskWords } from './words.ts';

interface Props {
  readonly label: string;
  /** As of an input: `.csv,text/csv`. */
  readonly accept: string;
  readonly file: File | null;
  readonly onPick: (file: File) => void;
  readonly help?: string;
}

/** A file, chosen or dropped. */
export function FilePick({ label, accept, file, onPick, help }: Props) {
  const w = useWordsOf(deskWords);
  const id = useId();
  const [over, setOver] = useState(false);
  return (
    <div
      className={over ? 'file-pick over' : 'file-pick'}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        const [dropped] = event.dataTransfer.files;
        if (dropped !== undefined) onPick(dropped);
      }}
    >
      <label className="button quiet" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        type="file"
        accept={accept}
        className="unseen"
        onChange={(event) => {
          const [chosen] = event.target.files ?? [];
          if (chosen !== undefined) onPick(chosen);
          // The same file, mended and chosen again, counts again.
          event.target.value = '';
        }}
      />
      <p className="faint small">
        {file === null ? (help ?? w.orDrop) : `${file.name}, ${w.kilobytes(file.size / 1024)}`}
      </p>
    </div>
  );
}
