import { createHash, randomBytes } from 'node:crypto';
import { sealedIn } from '@furrowmark/domain';
import { canonicalBytes } from '@furrowmark/log';
import { pointerOf } from '../http/index.ts';

/** The value behind a seal, and the salt that makes the seal reveal nothing. Kept apart from the log. */
export interface Opening {
  /** JSON pointer of the sealed member, from the record's top. */
  readonly pointer: string;
  readonly personId: string;
  readonly salt: Buffer;
  /** RFC 8785 text of the value. */
  readonly value: Buffer;
}

type Json = Readonly<Record<string, unknown>>;

/** A record with every personal value replaced by its seal, base64(SHA-256(32-byte random salt ‖ value's canonical text)). */
export function seal<T extends { readonly type: string; readonly data: Json }>(
  record: T,
): { readonly record: T; readonly openings: readonly Opening[] } {
  let data = record.data;
  const openings = sealedIn(record).map((path): Opening => {
    const inside = path.slice(1);
    const value = Buffer.from(canonicalBytes(at(data, inside)));
    const salt = randomBytes(32);
    const digest = createHash('sha256').update(salt).update(value).digest('base64');
    data = replaced(data, inside, { sealed: digest });
    return { pointer: pointerOf(path), personId: String(at(data, [...inside.slice(0, -1), 'personId'])), salt, value };
  });
  return openings.length === 0 ? { record, openings } : { record: { ...record, data }, openings };
}

/** A record with the sealed members that can still be opened opened. */
export function unsealed(
  record: Json,
  openings: readonly { readonly pointer: string; readonly value: Buffer }[],
): Json {
  return openings.reduce((opened, { pointer, value }) => {
    const path = pointer.slice(1).split('/');
    return replaced(opened, path, JSON.parse(value.toString('utf8')));
  }, record);
}

function at(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (inner, step) => (typeof inner === 'object' && inner !== null ? Reflect.get(inner, step) : undefined),
    value,
  );
}

function replaced(object: Json, path: readonly PropertyKey[], value: unknown): Json {
  const [step, ...rest] = path;
  if (step === undefined) return object;
  const inner = at(object, [step]);
  const next = rest.length === 0 ? value : replaced(isObject(inner) ? inner : {}, rest, value);
  return { ...object, [step]: next };
}

const isObject = (value: unknown): value is Json => typeof value === 'object' && value !== null;
