const encoder = new TextEncoder();
// ignoreBOM keeps a byte order mark as a character, so that decoding loses nothing: equal texts are equal bytes.
const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** The UTF-8 bytes of a text. Throws where the text holds a lone surrogate, which UTF-8 cannot carry. */
export function utf8(text: string): Uint8Array {
  if (!text.isWellFormed()) throw new SyntaxError('text holds a lone surrogate');
  return encoder.encode(text);
}

/** The text of UTF-8 bytes, or null where they are not valid UTF-8. Reversible: `utf8(textOf(b))` is `b`. */
export function textOf(bytes: Uint8Array): string | null {
  try {
    return decoder.decode(bytes);
  } catch {
    return null;
  }
}

/** Standard base64 with padding (RFC 4648 section 4). */
export function base64(bytes: Uint8Array): string {
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary);
}

/**
 * The bytes of a base64 text, or null unless the text is exactly what {@link base64} writes: other spellings of the
 * same bytes (no padding, stray bits, spaces) would let one signature or root be written in several ways.
 */
export function fromBase64(text: string): Uint8Array | null {
  let binary: string;
  try {
    binary = atob(text);
  } catch {
    return null;
  }
  if (btoa(binary) !== text) return null;
  return Uint8Array.from(binary, (character) => character.charCodeAt(0));
}

/** Lower-case hexadecimal. */
export function hex(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += byte.toString(16).padStart(2, '0');
  return text;
}

/** Whether two byte strings are equal. */
export function equalBytes(a: Uint8Array, b: Uint8Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** The byte strings, one after another. */
export function concatBytes(...parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
