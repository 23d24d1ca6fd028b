/** A thing may be named as everywhere else in the interface (`batchId`) or as reports say it (`batch`). */
export const underShortNames = (named: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(named).map(([name, value]) => [
      /^(batch|lot|harvest|field)Id$/.test(name) ? name.slice(0, -2) : name,
      value,
    ]),
  );
