import { typeEntry, type TypeEntry } from './catalogue.ts';

/**
 * Data of an older version brought to the newest one, a step at a time. The steps are pure and never invent a value:
 * what an older version did not ask stays absent. Data of the newest version comes back as it is.
 * Throws RangeError for a type or version that this software does not know.
 */
export function upcast(
  type: string,
  version: number,
  data: unknown,
  entry: TypeEntry | undefined = typeEntry(type),
): unknown {
  if (entry === undefined) throw new RangeError(`no record type ${type} is known here`);
  if (version === entry.version) return data;
  const from = (entry.older ?? []).filter((older) => older.version >= version);
  if (from[0]?.version !== version)
    throw new RangeError(
      `version ${String(version)} of ${type} is not known here; the newest is ${String(entry.version)}`,
    );
  return from.reduce((older, step) => step.upcast(older), data);
}
