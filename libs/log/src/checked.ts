/** The outcome of reading or checking what came from outside: the value, or why not, in plain words. */
export type Checked<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: string };

export function good<T>(value: T): Checked<T> {
  return { ok: true, value };
}

export function bad(why: string): { readonly ok: false; readonly why: string } {
  return { ok: false, why };
}
