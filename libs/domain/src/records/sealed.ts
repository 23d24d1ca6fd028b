import type { Path } from './problem.ts';

/** Where a type's data holds members that the log keeps sealed (only a digest of them, see the record format). */
export function sealedPaths(type: string): readonly (readonly string[])[] {
  return type === 'person.registered' || type === 'person.revised' ? [['personal']] : [];
}

const memberOf = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null && Object.hasOwn(value, name) ? Reflect.get(value, name) : undefined;

/**
 * The paths, from the record's top, of the members to seal or to open in this very record: those of its own type, or,
 * where it amends another, of the data it carries (`/data/data/personal`), however deep.
 */
export function sealedIn(record: { readonly type: string; readonly data: unknown }): Path[] {
  const inside = (type: string, data: unknown, path: Path): Path[] => {
    const amended = type === 'record.amended' ? memberOf(data, 'type') : undefined;
    if (typeof amended === 'string') return inside(amended, memberOf(data, 'data'), [...path, 'data']);
    return sealedPaths(type)
      .filter((steps) => steps.reduce(memberOf, data) !== undefined)
      .map((steps) => [...path, ...steps]);
  };
  return inside(record.type, record.data, ['data']);
}

/** Whether a sealable member holds a seal rather than the value. */
export const isSealed = (value: unknown): value is { readonly sealed: string } =>
  typeof memberOf(value, 'sealed') === 'string';
