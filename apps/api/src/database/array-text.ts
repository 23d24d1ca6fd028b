/** What stands for itself in an array: numbers, ids, times, names of types. The bare word null is not text. */
const plain = /^(?!null$)[A-Za-z0-9.:+-]+$/i;

/**
 * PostgreSQL's text of an array whose elements need no quoting. The driver's own way quotes every element, which is felt
 * at a hundred records a request. Throws where an element would have to be quoted.
 */
export function arrayText(elements: readonly (string | number)[]): string {
  for (const element of elements) {
    if (typeof element === 'string' && !plain.test(element)) throw new Error(`in an array this is quoted: ${element}`);
  }
  return `{${elements.join()}}`;
}
