/**
 * Something made when it is first asked for, and then kept. For what a program describes but seldom needs: a phone that is
 * being opened reads hundreds of records and checks none.
 */
export function later<T extends object>(make: () => T): () => T {
  let made: T | null = null;
  return () => (made ??= make());
}
