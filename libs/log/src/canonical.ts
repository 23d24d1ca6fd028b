import { textOf, utf8 } from './bytes.ts';

/**
 * RFC 8785 (JSON Canonicalization Scheme): one JSON value has one text.
 *
 *   object   members in ascending order of their names' UTF-16 code units, no white space
 *   array    elements in their order
 *   string   the shortest escapes: \" \\ \b \t \n \f \r, \u00xx for other controls, all else as it is
 *   number   as ECMAScript writes it (shortest digits that read back to the same double; -0 as 0)
 *
 * What has no such text is refused: NaN, Infinity, lone surrogates, undefined, functions, holes in arrays, BigInt,
 * symbols, and objects that are not plain (a Date is not a JSON value, though JSON.stringify would write one).
 */
export class NotCanonical extends Error {
  override readonly name = 'NotCanonical';
}

/** Values nested deeper than this are refused, so that no input can exhaust the stack. */
export const maxDepth = 256;

/** The RFC 8785 text of a JSON value. Throws {@link NotCanonical} where there is none. */
export function canonicalText(value: unknown): string {
  return text(value, 0);
}

/** The UTF-8 bytes of {@link canonicalText}: what is stored and hashed. */
export function canonicalBytes(value: unknown): Uint8Array {
  return utf8(canonicalText(value));
}

function text(value: unknown, depth: number): string {
  switch (typeof value) {
    case 'string':
      return quoted(value);
    case 'number':
      if (!Number.isFinite(value)) throw new NotCanonical(`${value} is not a JSON number`);
      return value === 0 ? '0' : String(value);
    case 'boolean':
      return value ? 'true' : 'false';
    case 'object':
      if (value === null) return 'null';
      if (depth === maxDepth) throw new NotCanonical(`nested deeper than ${maxDepth}`);
      return Array.isArray(value) ? arrayText(value, depth) : objectText(value, depth);
    default:
      throw new NotCanonical(`a ${typeof value} is not a JSON value`);
  }
}

function arrayText(array: readonly unknown[], depth: number): string {
  let out = '[';
  // By index, because forEach and map skip holes; a hole reads as undefined and is refused.
  for (let i = 0; i < array.length; i++) out += (i === 0 ? '' : ',') + text(array[i], depth + 1);
  return out + ']';
}

function objectText(object: object, depth: number): string {
  if (!isPlain(object)) throw new NotCanonical('an object that is not plain is not a JSON value');
  let out = '{';
  for (const name of Object.keys(object).sort()) {
    out += (out === '{' ? '' : ',') + quoted(name) + ':' + text(object[name], depth + 1);
  }
  return out + '}';
}

function isPlain(object: object): object is Record<string, unknown> {
  const prototype: unknown = Object.getPrototypeOf(object);
  // A root prototype of any realm, rather than this realm's Object.prototype: values may come from another one.
  return prototype === null || Object.getPrototypeOf(prototype) === null;
}

const needsEscape = /[\u0000-\u001f"\\\ud800-\udfff]/;

function quoted(string: string): string {
  // Most strings need no escape and are joined as they are.
  if (!needsEscape.test(string)) return `"${string}"`;
  if (!string.isWellFormed()) throw new NotCanonical('a string holds a lone surrogate');
  return JSON.stringify(string);
}

/**
 * The value of canonical bytes, or null where the bytes are not the canonical text of their own value:
 * `bytes === utf8(JCS(parse(bytes)))`. This one rule also finds duplicate members, integers beyond 2^53,
 * `1.0`, escapes written in another way, white space, a byte order mark and invalid UTF-8.
 */
export function parseCanonical(bytes: Uint8Array): { value: unknown } | null {
  const given = textOf(bytes);
  if (given === null) return null;
  try {
    const value: unknown = JSON.parse(given);
    return canonicalText(value) === given ? { value } : null;
  } catch {
    return null;
  }
}

/** Whether the bytes are the canonical text of their own value. See {@link parseCanonical}. */
export function isCanonical(bytes: Uint8Array): boolean {
  return parseCanonical(bytes) !== null;
}
