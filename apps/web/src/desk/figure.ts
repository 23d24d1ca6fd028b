import type { Language } from '../words/catalogue.ts';

const signs = { en: '.', es: ',' } as const;

/**
 * A figure as people write it, with a point or a comma for the decimals, as plain text with a point. null where it is no
 * figure, or where it could be read two ways: `1,000` in English and `1.000` in Spanish may be a thousand or one.
 */
export function plainFigure(text: string, language: Language): string | null {
  const [, before = '', sign = '', after = ''] = /^(-?\d*)(?:([.,])(\d+))?$/.exec(text.trim()) ?? [];
  if (!/\d/.test(before + after)) return null;
  const grouped = sign !== signs[language] && after.length === 3 && /^-?[1-9]\d{0,2}$/.test(before);
  if (grouped) return null;
  const whole = before === '' || before === '-' ? `${before}0` : before;
  return after === '' ? whole : `${whole}.${after}`;
}

/** A plain figure with the decimal sign of the language. */
export const writtenFigure = (plain: string, language: Language): string => plain.replace('.', signs[language]);
