import { startTransition, useEffect, useState, type ReactNode } from 'react';

/** What stands below the first screen: drawn once that is in view. */
export function Afterwards({ children }: { readonly children: ReactNode }) {
  const [drawn, setDrawn] = useState(false);
  useEffect(() => startTransition(() => setDrawn(true)), []);
  return drawn ? children : null;
}
