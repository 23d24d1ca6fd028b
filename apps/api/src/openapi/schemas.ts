import { recordTypes, typeEntry } from '@furrowmark/domain';
import { z } from 'zod';

type Json = Record<string, unknown>;

/** The JSON Schema (2020-12, as OpenAPI 3.1 takes it) of what a zod schema accepts. */
export function schemaOf(schema: z.ZodType): Json {
  const made = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' });
  return Object.fromEntries(Object.entries(made).filter(([name]) => name !== '$schema'));
}

const reference = (name: string): Json => ({ $ref: `#/components/schemas/${name}` });
const text = { type: 'string' };
const uuid = { type: 'string', format: 'uuid' };
const instant = { type: 'string', format: 'date-time' };
const sha256 = { type: 'string', pattern: '^[0-9a-f]{64}$' };
const whole = { type: 'integer', minimum: 0 };

/** An object all of whose members are there, except those whose name ends in a question mark. */
export function object(members: Json): Json {
  const entries = Object.entries(members);
  return {
    type: 'object',
    properties: Object.fromEntries(entries.map(([name, schema]) => [name.replace(/\?$/, ''), schema])),
    required: entries.map(([name]) => name).filter((name) => !name.endsWith('?')),
  };
}
export const listOf = (items: Json): Json => ({ type: 'array', items });

/** What a client writes of a record of one type. */
function draftOf(type: string): Json {
  const entry = typeEntry(type);
  return {
    ...object({
      id: uuid,
      type: { const: type },
      version: { const: entry?.version ?? 1 },
      occurredAt: instant,
      'plusMinusMinutes?': { type: 'number', minimum: 0 },
      'enteredAt?': instant,
      'performedBy?': uuid,
      'origin?': { enum: ['observed', 'fromMemory', 'fromPaper', 'instrument'] },
      data: entry === undefined ? {} : schemaOf(entry.schema()),
    }),
    additionalProperties: false,
  };
}

const clientTypes = recordTypes.filter((type) => typeEntry(type)?.server !== true);
const nameOf = (type: string): string => `Record.${type}`;

/** Every schema that the description refers to by name. */
export function components(): Json {
  const problem = object({
    type: text,
    title: text,
    status: { type: 'integer' },
    detail: text,
    errors: listOf(object({ 'pointer?': text, 'parameter?': text, detail: text })),
  });
  return {
    Problem: problem,
    ...Object.fromEntries(clientTypes.map((type) => [nameOf(type), draftOf(type)])),
    Record: { oneOf: clientTypes.map((type) => reference(nameOf(type))) },
    Quantity: object({ value: { type: 'number' }, unit: { type: 'string', description: 'UCUM code' } }),
    LogEntry: object({
      id: uuid,
      type: { enum: [...recordTypes] },
      version: { type: 'integer', minimum: 1 },
      occurredAt: instant,
      data: { type: 'object' },
      operationId: uuid,
      seq: whole,
      recordedAt: instant,
      recordedBy: uuid,
    }),
    Appended: object({
      results: listOf({
        oneOf: [
          object({ id: uuid, status: { enum: ['recorded', 'duplicate'] }, seq: whole, recordedAt: instant }),
          object({ id: { type: ['string', 'null'] }, status: { const: 'refused' }, problem: reference('Problem') }),
        ],
      }),
      log: object({ size: whole, root: { type: 'string', description: 'base64 of 32 bytes' } }),
    }),
    Outcome: object({
      ruleId: text,
      revision: whole,
      about: object({ kind: text, id: text, code: text }),
      outcome: { enum: ['met', 'caution', 'broken', 'due', 'unknown', 'notApplicable'] },
      severity: { enum: ['notice', 'minor', 'major', 'critical'] },
      basis: { enum: ['regulation', 'certifier', 'guideline', 'ownPlan', 'practice'] },
      title: text,
      message: { ...text, description: 'in the language of Accept-Language: en or es' },
      said: object({ key: text, 'with?': { type: 'object' } }),
      figures: listOf({ type: 'object' }),
      recordIds: listOf(uuid),
      citation: text,
      ruleBookSeq: { type: ['integer', 'null'] },
      findingId: uuid,
      'dueAt?': instant,
      'due?': text,
    }),
  };
}

export { reference, uuid, instant, sha256, whole, text };
