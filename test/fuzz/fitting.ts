import fc from 'fast-check';
import { z } from 'zod';

/** As much of JSON Schema as the description of the interface uses. */
const node = z.looseObject({
  $ref: z.string().optional(),
  type: z.union([z.string(), z.array(z.string())]).optional(),
  const: z.unknown().optional(),
  enum: z.array(z.unknown()).optional(),
  oneOf: z.array(z.unknown()).optional(),
  anyOf: z.array(z.unknown()).optional(),
  allOf: z.array(z.unknown()).optional(),
  properties: z.record(z.string(), z.unknown()).optional(),
  required: z.array(z.string()).optional(),
  additionalProperties: z.unknown().optional(),
  items: z.unknown().optional(),
  prefixItems: z.array(z.unknown()).optional(),
  minItems: z.number().optional(),
  maxItems: z.number().optional(),
  minLength: z.number().optional(),
  maxLength: z.number().optional(),
  minimum: z.number().optional(),
  maximum: z.number().optional(),
  format: z.string().optional(),
  pattern: z.string().optional(),
});
type Node = z.infer<typeof node>;

const units = ['[gal_us]', 'L', 'mg/L', '[degF]', 'Cel', '[lb_av]', 'g', 'm', 'm2', '[acr_us]', '%', 'min', '[pH]'];
const day = fc.date({ min: new Date('2026-03-01'), max: new Date('2026-11-20'), noInvalidDate: true });

/** Values that fit a schema; ids are mostly among those given, so that what is made hangs together. */
export function fitting(
  schema: unknown,
  schemas: Readonly<Record<string, unknown>>,
  ids: readonly string[],
): fc.Arbitrary<unknown> {
  const id = fc.oneof({ arbitrary: fc.constantFrom(...ids), weight: 3 }, { arbitrary: fc.uuid(), weight: 2 });

  const text = ({ format, pattern, minLength = 0, maxLength = 40 }: Node, name: string): fc.Arbitrary<string> => {
    if (name === 'id') return fc.uuid();
    if (name === 'unit' || name === 'to') return fc.constantFrom(...units);
    if (name === 'timeZone') return fc.constantFrom('America/New_York', 'UTC');
    if (format === 'uuid' || pattern?.includes('[0-9a-f]{4}')) return id;
    if (format === 'date-time') return day.map((at) => at.toISOString());
    if (format === 'date') return day.map((at) => at.toISOString().slice(0, 10));
    if (format === 'email') return fc.constant('ines@quillfen.example');
    if (/At$|^(at|from|to|startedAt)$/.test(name)) return day.map((at) => at.toISOString());
    if (pattern?.startsWith('^\\d')) return fc.nat(200).map(String);
    if (pattern?.includes('{64}')) return fc.uint8Array({ minLength: 32, maxLength: 32 }).map(hex);
    if (pattern !== undefined && !/^\\S$|\(\?/.test(pattern)) return fc.stringMatching(new RegExp(pattern));
    return fc.string({ unit: 'grapheme', minLength: Math.max(minLength, 1), maxLength: Math.min(maxLength, 40) });
  };

  const object = (members: Node): fc.Arbitrary<unknown> => {
    const { properties = {}, required = [] } = members;
    const made = Object.fromEntries(Object.entries(properties).map(([name, each]) => [name, of(each, name)]));
    return fc.record(made, { requiredKeys: required.filter((name) => name in made) });
  };

  function of(input: unknown, name: string): fc.Arbitrary<unknown> {
    const each = node.parse(input === true ? {} : input);
    if (each.$ref !== undefined) return fc.constant(null).chain(() => of(schemas[lastOf(each.$ref ?? '')], name));
    if ('const' in each && each.const !== undefined) return fc.constant(each.const);
    if (each.enum !== undefined) return fc.constantFrom(...each.enum);
    const choice = each.oneOf ?? each.anyOf;
    if (choice !== undefined) return fc.oneof(...choice.map((one) => of(one, name)));
    if (each.allOf !== undefined) {
      return fc
        .tuple(...each.allOf.map((one) => of(one, name)))
        .map((parts) => Object.assign({}, ...parts.map(Object)));
    }
    const type = Array.isArray(each.type) ? each.type[0] : each.type;
    if (type === 'string') return text(each, name);
    if (type === 'integer') return fc.integer({ min: each.minimum ?? 0, max: Math.min(each.maximum ?? 500, 5_000) });
    if (type === 'number') return number(each);
    if (type === 'boolean') return fc.boolean();
    if (type === 'null') return fc.constant(null);
    if (type === 'array') {
      if (each.prefixItems !== undefined) return fc.tuple(...each.prefixItems.map((one) => of(one, name)));
      const few = Math.min(each.maxItems ?? 4, Math.max(each.minItems ?? 0, 4));
      return fc.array(of(each.items ?? {}, name), { minLength: each.minItems ?? 0, maxLength: few });
    }
    if (type === 'object') return object(each);
    return fc.jsonValue({ maxDepth: 2 });
  }

  return of(schema, '');
}

const number = ({ minimum = 0, maximum = 1_000 }: Node): fc.Arbitrary<number> =>
  fc.integer({ min: Math.ceil(minimum * 10), max: Math.floor(maximum * 10) }).map((tenths) => tenths / 10);
const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');
const lastOf = (reference: string): string => reference.slice(reference.lastIndexOf('/') + 1);
