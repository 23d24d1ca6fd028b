import { useState, type ReactNode } from 'react';

interface Props {
  readonly className?: string;
  readonly summary: ReactNode;
  /** Drawn when it is opened the first time: a page of many is not held up by what nobody looks at yet. */
  readonly children: () => ReactNode;
}

/** Something that opens to more of it. */
export function Unfold({ className, summary, children }: Props) {
  const [seen, setSeen] = useState(false);
  return (
    <details className={className} onToggle={({ currentTarget: { open } }) => setSeen((before) => before || open)}>
      <summary>{summary}</summary>
      {seen && children()}
    </details>
  );
}
