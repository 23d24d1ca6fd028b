/**
 * The code of an error from the system or the database (`EEXIST`, `57P01`); undefined where it has none. Asked of the
 * value, not of its class: an error may come from another realm.
 */
export function codeOf(error: unknown): string | undefined {
  const code: unknown = typeof error === 'object' && error !== null && 'code' in error ? error.code : undefined;
  return typeof code === 'string' ? code : undefined;
}
