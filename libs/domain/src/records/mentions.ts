const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
/** Members that name a batch. */
const BATCH = new Set(['batchId', 'intoBatchId']);

interface Mentioning {
  readonly data: unknown;
  readonly performedBy?: string | undefined;
}

function visit(value: unknown, name: string, see: (id: string, member: string) => void): void {
  if (typeof value === 'string') {
    if (UUID.test(value)) see(value, name);
  } else if (Array.isArray(value)) for (const item of value) visit(item, name, see);
  else if (typeof value === 'object' && value !== null)
    for (const [member, inner] of Object.entries(value)) visit(inner, member, see);
}

/**
 * Every id that a record names, each once, in the order of its data: subjects, things used, targets, draws, `about`
 * lists, the corrected record and what its corrected data names, and who did it. Any text that is a UUID counts, so a
 * new member needs no line here.
 */
export function mentions(record: Mentioning): string[] {
  const ids = new Set<string>();
  visit(record.data, 'data', (id) => ids.add(id));
  if (record.performedBy !== undefined) ids.add(record.performedBy);
  return [...ids];
}

/**
 * The batches that a record names outright, an amendment's corrected data included. A draw, or the record that a
 * correction names, leads to its batch only through other records.
 */
export function batchesNamed(record: Mentioning): string[] {
  const ids = new Set<string>();
  visit(record.data, 'data', (id, member) => {
    if (BATCH.has(member)) ids.add(id);
  });
  return [...ids];
}
