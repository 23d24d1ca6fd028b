import { instantOf, parseInstant, type CurrentRecord, type Instant, type Quantity } from '@furrowmark/domain';
import { ruleById, titleIn } from '@furrowmark/rules';
import { z } from 'zod';
import { localTime } from '../clock.ts';
import { parameterNames } from '../words/parameters.ts';
import { memberNames } from '../words/members.ts';
import { choiceName, typeNames } from '../words/records.ts';
import { lotName, nameOf } from './names.ts';
import { asWritten } from './numbers.ts';
import { quantityText } from './quantities.ts';
import type { Telling } from './telling.ts';

const inLanguage = (telling: Telling, pair: readonly [string, string, string?]): string =>
  pair[telling.language === 'en' ? 0 : 1];

/** `batch.oxygenMeasured` → "oxygen measured"; a type without a word is split at its capitals. */
export function typeName(telling: Telling, type: string): string {
  const pair = typeNames[type];
  return pair === undefined ? spelled(type.replace('.', ' ')) : inLanguage(telling, pair);
}

const spelled = (name: string): string => name.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

function isQuantity(value: object): value is Quantity {
  return 'value' in value && typeof value.value === 'number' && 'unit' in value && typeof value.unit === 'string';
}

/** A fixed choice in the reader's words; what was typed freely as it stands. */
export function choiceText(telling: Telling, member: string, value: string): string {
  const choice = choiceName(member, value);
  return choice === undefined ? value : inLanguage(telling, choice);
}

function valueText(telling: Telling, member: string, value: unknown, on: Instant): string {
  const { words } = telling;
  if (typeof value === 'boolean') return value ? words.yes : words.no;
  if (typeof value === 'number') return member === 'throughSeq' ? String(value) : asWritten(value);
  if (typeof value === 'string') {
    if (uuid.test(value)) return member === 'lotId' ? lotName(telling, value) : nameOf(telling, value);
    if (value.includes('T') && parseInstant(value) !== null) return localTime(instantOf(value), telling.zone);
    if (member === 'ruleId') return ruleName(telling, value);
    if (member === 'type') return typeName(telling, value);
    const choice = choiceName(member, value);
    return choice === undefined ? asTyped(value) : inLanguage(telling, choice);
  }
  if (Array.isArray(value)) return value.map((each) => valueText(telling, member, each, on)).join('; ');
  if (typeof value !== 'object' || value === null) return '';
  if (isQuantity(value)) return quantityText(telling, value, on);
  if ('type' in value && value.type === 'Polygon') return outlineText(telling, value);
  return `(${dataText(telling, value, on)})`;
}

/** What was typed stands in quotes where it holds signs that would otherwise read as those of the list. */
const asTyped = (text: string): string => (/[,;:]( |$)|\.$|\. \p{Lu}/u.test(text) ? `“${text}”` : text);

const polygon = z.object({ coordinates: z.array(z.array(z.unknown())) });

/** Of an outline how many corners it has: the map shows it, and the attached data have its coordinates. */
function outlineText({ language }: Telling, value: object): string {
  const parsed = polygon.safeParse(value);
  // A ring's last position is its first again.
  const corners = parsed.success ? parsed.data.coordinates.reduce((sum, ring) => sum + ring.length - 1, 0) : 0;
  return language === 'es' ? `de ${corners} vértices` : `with ${corners} corners`;
}

/** Members that name what stands in the heading already, and are left out. */
export type Known = ReadonlySet<string>;

function ruleName({ language }: Telling, ruleId: string): string {
  const rule = ruleById(ruleId);
  return rule === undefined ? ruleId : `“${titleIn({ ruleId, title: rule.title }, language)}”`;
}

/**
 * What a record's data say, member by member, in the reader's words: `oxygen 7.4 mg/L, temperature 64 °F, with DO-1`; what
 * belongs together within it in brackets: `targets (field North, area 4 acre)`.
 */
export function dataText(telling: Telling, data: object, on: Instant, known: Known = new Set()): string {
  return Object.entries(data)
    .filter(([, value]) => value !== undefined && !(Array.isArray(value) && value.length === 0))
    .filter(([, value]) => !(typeof value === 'string' && known.has(value)))
    .map(([member, value]) => {
      const pair = memberNames[member] ?? parameterNames[member];
      return `${pair === undefined ? spelled(member) : inLanguage(telling, pair)} ${valueText(telling, member, value, on)}`;
    })
    .join(', ');
}

/** A record's own id says nothing beside its code: `applicationId` in `application.made`, `drawId` in `batch.drawn`. */
function withoutOwnId(type: string, data: object): object {
  const own = type === 'batch.drawn' ? 'drawId' : 'code' in data ? `${type.split('.')[0] ?? ''}Id` : '';
  return Object.fromEntries(Object.entries(data).filter(([member]) => member !== own));
}

/** What a record says now. */
export const recordText = (telling: Telling, record: CurrentRecord, known?: Known): string =>
  dataText(telling, withoutOwnId(record.type, record.data), record.at.at, known);

/** What it said as first written, where that was amended or struck; undefined where it still says the same. */
export function originalText(telling: Telling, record: CurrentRecord, known?: Known): string | undefined {
  const original = record.history.find((step) => step.kind === 'original');
  if (original === undefined || typeof original.data !== 'object' || original.data === null) return undefined;
  return dataText(telling, withoutOwnId(record.type, original.data), record.at.at, known);
}
