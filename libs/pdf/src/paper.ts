/** Paper sizes in points. */
export type Paper = 'letter' | 'a4';
export const paperSizes: Readonly<Record<Paper, readonly [number, number]>> = {
  letter: [612, 792],
  a4: [595.28, 841.89],
};

/** Distance of the text from the paper's edge, in points. Header and footer stand in the top and bottom margins. */
export const margin = { left: 52, right: 52, top: 66, bottom: 58 } as const;

/** Sizes and leadings in points; leadings are multiples of half the body's, which keeps columns in step. */
export const type = {
  title: { font: 'light', size: 23, leading: 28 },
  h1: { font: 'semibold', size: 15, leading: 21 },
  h2: { font: 'semibold', size: 11.5, leading: 17.5 },
  h3: { font: 'semibold', size: 9.75, leading: 14 },
  body: { font: 'regular', size: 9.75, leading: 14 },
  strong: { font: 'semibold', size: 9.75, leading: 14 },
  cell: { font: 'regular', size: 8.75, leading: 11 },
  cellStrong: { font: 'semibold', size: 8.75, leading: 11 },
  small: { font: 'regular', size: 8, leading: 10.5 },
  smallStrong: { font: 'semibold', size: 8, leading: 10.5 },
  smallItalic: { font: 'italic', size: 8, leading: 10.5 },
  chrome: { font: 'regular', size: 7.5, leading: 10 },
} as const satisfies Record<string, TextStyle>;

export type FontName = 'light' | 'regular' | 'semibold' | 'italic';
export interface TextStyle {
  readonly font: FontName;
  readonly size: number;
  readonly leading: number;
}

/**
 * Greys carry the meaning on a black-and-white printer; the colours come third. Okabe–Ito palette, published as
 * distinguishable with the common kinds of colour blindness (Okabe & Ito, "Color Universal Design", 2008).
 */
export const ink = {
  text: '#1b1b1b',
  quiet: '#555555',
  faint: '#8a8a8a',
  rule: '#bdbdbd',
  tint: '#f1f1f1',
  white: '#ffffff',
  blue: '#0072b2',
  sky: '#56b4e9',
  green: '#009e73',
  orange: '#e69f00',
  vermilion: '#d55e00',
} as const;
