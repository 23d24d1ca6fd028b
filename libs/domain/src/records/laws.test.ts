import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { drafts } from './corpus/read.ts';
import { parseDraft } from './parseDraft.ts';
import { pointerTo, type Path } from './problem.ts';

const now = Date.parse('2026-11-25T12:00:00Z');

/** Every place in a JSON value that `wanted` picks, with its path. */
function places(value: unknown, wanted: (value: unknown) => boolean, path: Path = []): Path[] {
  const inside =
    typeof value === 'object' && value !== null
      ? Object.entries(value).flatMap(([name, inner]) =>
          places(inner, wanted, [...path, Array.isArray(value) ? Number(name) : name]),
        )
      : [];
  return wanted(value) ? [path, ...inside] : inside;
}

/** A copy of a JSON value with what stands at the path replaced. */
function replaced(value: unknown, [step, ...rest]: Path, change: (old: unknown) => unknown): unknown {
  if (step === undefined) return change(value);
  if (Array.isArray(value)) return value.map((item, i): unknown => (i === step ? replaced(item, rest, change) : item));
  if (typeof value !== 'object' || value === null) return value;
  return { ...value, [step]: replaced(Reflect.get(value, step), rest, change) };
}

const isPlainObject = (value: unknown): boolean => typeof value === 'object' && value !== null && !Array.isArray(value);

function errorsOf(input: unknown): readonly { readonly pointer: string; readonly detail: string }[] {
  const parsed = parseDraft(input, { now });
  return parsed.ok ? [] : parsed.problem.errors;
}

const example = fc.constantFrom(...drafts);
/** A draft of the corpus and one place in it. */
const placeIn = (wanted: (value: unknown, path: Path) => boolean) =>
  example.chain((draft) => {
    const found = places(draft, (value) => wanted(value, [])).filter((path) => !path.includes('parameters'));
    return found.length === 0 ? fc.constant(null) : fc.constantFrom(...found).map((path) => ({ draft, path }));
  });

describe('laws of what is refused, at every depth of every type', () => {
  it('an unknown member is refused wherever it stands, and pointed at', () => {
    fc.assert(
      fc.property(placeIn(isPlainObject), fc.stringMatching(/^[a-z]{1,8}Zz$/), (place, name) => {
        fc.pre(place !== null);
        if (place === null) return;
        const input = replaced(place.draft, place.path, (old) => ({ ...Object(old), [name]: 1 }));
        expect(errorsOf(input).map(({ pointer }) => pointer)).toContain(pointerTo([...place.path, name]));
      }),
      { numRuns: 400 },
    );
  });

  it('a number of 16 digits, or of a thousand thousand millions, is refused wherever it stands', () => {
    const wrong = fc.constantFrom(0.1234567890123456, 12345.67890123456, 1e12, -1e12, NaN, Infinity);
    fc.assert(
      fc.property(
        placeIn((value) => typeof value === 'number'),
        wrong,
        (place, number) => {
          if (place === null) return;
          const input = replaced(place.draft, place.path, () => number);
          expect(errorsOf(input).map(({ pointer }) => pointer)).toContain(pointerTo(place.path));
        },
      ),
      { numRuns: 300 },
    );
  });

  it('a text with NUL or half a character is refused wherever it stands', () => {
    fc.assert(
      fc.property(
        placeIn((value) => typeof value === 'string'),
        fc.constantFrom('\0', '\ud83d', '\udc00'),
        (place, bad) => {
          if (place === null) return;
          const input = replaced(place.draft, place.path, (old) => `${String(old)}${bad}`);
          expect(errorsOf(input).map(({ pointer }) => pointer)).toContain(pointerTo(place.path));
        },
      ),
      { numRuns: 300 },
    );
  });

  it('a member of another kind is refused at it or inside it, never with an exception', () => {
    fc.assert(
      fc.property(
        placeIn(() => true),
        fc.jsonValue(),
        (place, value) => {
          if (place === null || place.path.length === 0) return;
          const input = replaced(place.draft, place.path, () => value);
          for (const { pointer, detail } of errorsOf(input)) {
            expect(pointer).toMatch(/^(\/|$)/);
            expect(detail).not.toMatch(/Invalid|undefined|\[object/);
          }
        },
      ),
      { numRuns: 1500 },
    );
  });

  it('whatever JSON a client sends is answered, not thrown', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(parseDraft(value, { now }).ok).toBe(false);
      }),
    );
  });
});
