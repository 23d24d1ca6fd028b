import { useState } from 'react';

interface Past {
  readonly canTakeBack: boolean;
  /** A step: it can be taken back. */
  readonly write: (text: string) => void;
  /** Typed letter by letter: the steps before it can still be taken back, the letters are the text field's own affair. */
  readonly writeOver: (text: string) => void;
  readonly takeBack: () => void;
}

/** The steps of a text that is drawn. Of one that came from elsewhere, such as an emptied form's, nothing is taken back. */
export function usePast(value: string, onChange: (value: string) => void): Past {
  const [past, setPast] = useState<{ readonly before: readonly string[]; readonly left: string }>({
    before: [],
    left: '',
  });
  const before = past.left === value ? past.before : [];
  const leave = (text: string, steps: readonly string[]): void => {
    setPast({ before: steps, left: text });
    onChange(text);
  };
  return {
    canTakeBack: before.length > 0,
    write: (text) => leave(text, [...before, value]),
    writeOver: (text) => leave(text, before),
    takeBack: () => {
      const last = before.at(-1);
      if (last !== undefined) leave(last, before.slice(0, -1));
    },
  };
}
