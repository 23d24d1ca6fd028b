import { z } from 'zod';
import { later } from '../later.ts';
import { catalogue, type TypeEntry } from './catalogue.ts';
import * as ids from './ids.ts';
import * as members from './members.ts';
import * as quantities from './quantitySchema.ts';
import { results } from './source.ts';

type Schema = z.core.$ZodType;

/** What a schema is called in prose, where it has a name of its own. */
const names = later(
  (): ReadonlyMap<unknown, string> =>
    new Map<unknown, string>([
      ...Object.values(ids).map((id): [unknown, string] => [id, 'id']),
      [members.label, 'text'],
      [members.words, 'text, may be empty'],
      [members.instant, 'instant'],
      [members.date, 'date'],
      [members.dayOrYear, 'date or year'],
      [members.minutes, 'number ≥ 0'],
      [members.count, 'whole number ≥ 0'],
      [members.sha256, 'SHA-256 in hexadecimal'],
      [members.typeName, 'record type'],
      [quantities.volume(), 'volume or household measure'],
      [quantities.stock(), 'mass, volume, count or household measure'],
      [quantities.worth(), 'mass, volume or count'],
      [quantities.area(), 'area'],
      [quantities.length(), 'length'],
      [quantities.elevation(), 'length, may be negative'],
      [quantities.duration(), 'duration'],
      [quantities.speed(), 'speed'],
      [quantities.flow(), 'flow'],
      [quantities.temperature(), 'temperature reading'],
      [quantities.conductivity(), 'conductivity reading'],
      [quantities.concentration(), 'mass concentration reading'],
      [quantities.labResult(), 'laboratory result'],
      [quantities.reading(), 'reading'],
      [results(), '[{ analyte: text, value: laboratory result }]'],
    ]),
);

/** A member's kind in words. */
function kindOf(schema: Schema): string {
  const name = names().get(schema);
  if (name !== undefined) return name;
  if (schema instanceof z.ZodEnum) return schema.options.join(' · ');
  if (schema instanceof z.ZodLiteral) return [...schema.values].map(String).join(' · ');
  if (schema instanceof z.ZodArray) return `[${kindOf(schema.element)}]`;
  if (schema instanceof z.ZodObject) return `{ ${membersOf(schema).join(', ')} }`;
  if (schema instanceof z.ZodUnion) return schema.options.map(kindOf).join(' or ');
  if (schema instanceof z.ZodRecord) return 'members by name';
  if (schema instanceof z.ZodNumber) return 'number';
  if (schema instanceof z.ZodBoolean) return 'true or false';
  return schema instanceof z.ZodString ? 'text' : schema._zod.def.type;
}

function membersOf(schema: z.ZodObject): string[] {
  return Object.entries(schema.shape).map(([name, member]) =>
    member instanceof z.ZodOptional || member instanceof z.ZodExactOptional
      ? `${name}?: ${kindOf(member.unwrap())}`
      : `${name}: ${kindOf(member)}`,
  );
}

function describeType(type: string, entry: TypeEntry): string {
  const marks = [
    `Version ${String(entry.version)}`,
    ...(entry.server === true ? ['written by the server only'] : []),
    ...(entry.final === true ? ['never amended or struck'] : []),
  ];
  const schema = entry.schema();
  const lines = schema instanceof z.ZodObject ? membersOf(schema) : [kindOf(schema)];
  return [`### \`${type}\``, '', `${marks.join(', ')}.`, '', ...lines.map((line) => `- ${line}`), ''].join('\n');
}

/** Every record type with its members, as Markdown, from the schemas that validate. */
export const describeTypes = (): string =>
  Object.entries<TypeEntry>(catalogue)
    .map(([type, entry]) => describeType(type, entry))
    .join('\n');
