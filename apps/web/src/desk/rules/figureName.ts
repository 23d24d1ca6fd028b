import { parameterNames } from '@furrowmark/reports/parameter-names';
import type { Language } from '../../words/catalogue.ts';

/**
 * What a figure of a rule is called: `Longest hold time, h`, `límite, h`; without its unit where that stands elsewhere
 * (`unit` undefined). The reports have the Spanish names; one that they lack is told in English.
 */
export function figureName(name: string, description: string, unit: string | undefined, language: Language): string {
  const spanish = language === 'es' ? parameterNames[name]?.[1] : undefined;
  if (spanish !== undefined) return unit === undefined ? spanish.replace(/, [^,]+$/, '') : spanish;
  return `${description.replace(/\.$/, '')}${unit === undefined ? '' : `, ${unit}`}`;
}
