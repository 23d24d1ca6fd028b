/** A value that others follow. */
export interface External<T> {
  get(): T;
  set(value: T): void;
  subscribe(changed: () => void): () => void;
}

export function external<T>(first: T): External<T> {
  let value = first;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    set(next) {
      if (Object.is(next, value)) return;
      value = next;
      for (const listener of listeners) listener();
    },
    subscribe(changed) {
      listeners.add(changed);
      return () => listeners.delete(changed);
    },
  };
}
