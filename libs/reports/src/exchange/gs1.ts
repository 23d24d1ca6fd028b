/** How long each kind of GS1 key is, its check digit included (GS1 General Specifications, from memory). */
const lengths = { gtin: [8, 12, 13, 14], gln: [13], sscc: [18] } as const;
export type Gs1Key = keyof typeof lengths;

/**
 * The check digit of a GS1 key (GTIN, GLN, SSCC) without its last digit: from the right, weights 3 and 1 in turn; what is
 * missing to the next ten. Throws RangeError for what is no row of digits.
 * Source: GS1's own pages on the check digit.
 */
export function gs1CheckDigit(digits: string): number {
  if (!/^\d+$/.test(digits)) throw new RangeError('a GS1 key is made of digits');
  const sum = [...digits]
    .reverse()
    .reduce((total, digit, place) => total + Number(digit) * (place % 2 === 0 ? 3 : 1), 0);
  return (10 - (sum % 10)) % 10;
}

/** What is wrong with a GS1 key, in words; null where it is one. */
export function gs1Fault(kind: Gs1Key, text: string): string | null {
  if (!/^\d+$/.test(text)) return 'must be digits only';
  const allowed: readonly number[] = lengths[kind];
  if (!allowed.includes(text.length)) return `must have ${allowed.join(', ')} digits; this has ${text.length}`;
  const expected = gs1CheckDigit(text.slice(0, -1));
  return text.endsWith(String(expected))
    ? null
    : `ends in the wrong check digit: ${expected} belongs there; check the digits`;
}

/** Characters that a batch or lot (AI 10) may have: GS1's set of 82 (from memory), 20 at most. */
const lotCode = /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]{1,20}$/;

/**
 * A lot of a trade item as a GS1 Digital Link, which EPCIS 2.0 takes as the class of a lot; null where the lot's code
 * cannot be written on a GS1 label.
 */
export function lotLink(gtin: string, code: string): string | null {
  if (!lotCode.test(code)) return null;
  return `https://id.gs1.org/01/${gtin.padStart(14, '0')}/10/${encodeURIComponent(code)}`;
}

/** A place as a GS1 Digital Link. */
export const placeLink = (gln: string): string => `https://id.gs1.org/414/${gln}`;
