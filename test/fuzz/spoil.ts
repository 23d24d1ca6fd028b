import fc from 'fast-check';
import { hostileValue, prototypeNames, withMember } from './hostile.ts';

type Path = readonly (string | number)[];

/** A value with one place in it made hostile: replaced, given a stranger of a member, or a member left out. */
export const spoilt = (value: unknown): fc.Arbitrary<unknown> =>
  fc
    .tuple(
      fc.constantFrom(...placesOf(value)),
      hostileValue,
      fc.constantFrom<'replace' | 'add' | 'drop'>('replace', 'replace', 'replace', 'add', 'drop'),
      fc.constantFrom(...prototypeNames, 'seq', 'recordedBy', 'operationId', 'role', 'a/b~c', '', '\u0000'),
    )
    .map(([path, hostile, how, name]) =>
      changed(value, path, (at) => {
        if (how === 'replace') return hostile;
        if (typeof at !== 'object' || at === null || Array.isArray(at)) return hostile;
        if (how === 'add') return withMember({ ...at }, name, hostile);
        return Object.fromEntries(Object.entries(at).slice(1));
      }),
    );

function placesOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  const entries: [string | number, unknown][] = Array.isArray(value)
    ? value.map((each, i): [number, unknown] => [i, each])
    : Object.entries(value);
  return [path, ...entries.flatMap(([step, each]) => placesOf(each, [...path, step]))];
}

function changed(value: unknown, [step, ...rest]: Path, change: (at: unknown) => unknown): unknown {
  if (step === undefined) return change(value);
  if (Array.isArray(value)) return value.map((each, i) => (i === step ? changed(each, rest, change) : each));
  const object: Record<string, unknown> = { ...Object(value) };
  return withMember(object, String(step), changed(object[step], rest, change));
}
