/**
 * What a report is asked for by, as in an address: what is left empty is left out. Then the service takes the calendar year
 * so far, and through a reading link all that the link reads.
 */
export const askedBy = (parameters: Readonly<Record<string, string>>): string =>
  new URLSearchParams(Object.entries(parameters).filter(([, value]) => value !== '')).toString();
