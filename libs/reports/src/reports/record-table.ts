import type { CurrentRecord } from '@furrowmark/domain';
import type { Cell, TableBlock } from '../content.ts';
import {
  momentCell,
  nameOf,
  originalText,
  personName,
  recordText,
  shortId,
  typeName,
  type Telling,
} from '../telling/index.ts';
import type { Language } from '../words/index.ts';

const en = {
  number: 'No.',
  what: 'What',
  of: 'Of',
  says: 'Says',
  by: 'By',
  none: 'Nothing recorded.',
  account: (id: string) => `account ${id}`,
};
type Text = typeof en;
const es: Text = {
  number: 'N.º',
  what: 'Qué',
  of: 'De',
  says: 'Dice',
  by: 'Por',
  none: 'Nada anotado.',
  account: (id) => `cuenta ${id}`,
};
const texts: Readonly<Record<Language, Text>> = { en, es };

/** Who did it, by name; where the record names nobody, the account that wrote it. */
export function doneBy(telling: Telling, record: CurrentRecord): string {
  if (record.performedBy !== undefined) return personName(telling, record.performedBy);
  const account = telling.accounts?.get(record.recordedBy);
  return account ?? texts[telling.language].account(shortId(record.recordedBy));
}

const uncertain = (telling: Telling, record: CurrentRecord): string =>
  record.plusMinusMinutes === undefined || record.plusMinusMinutes === 0
    ? ''
    : `\n${telling.words.about(record.plusMinusMinutes)}`;

const origin = (telling: Telling, record: CurrentRecord): string =>
  record.origin === undefined || record.origin === 'observed' ? '' : ` (${telling.words.origins[record.origin]})`;

/** Why a record was amended or struck. */
function reasonOf(telling: Telling, record: CurrentRecord): string {
  const step = record.history.findLast((each) => each.inForce && each.kind !== 'original');
  return step?.reason === undefined ? '' : `\n${telling.words.states[record.state]}: ${step.reason}`;
}

/** What it says, with the original beside an amendment and a withdrawn one struck through. */
function says(telling: Telling, record: CurrentRecord, known: ReadonlySet<string>): Cell {
  const text = recordText(telling, record, known) || '–';
  if (record.state === 'struck') return { text, struck: true };
  const was = originalText(telling, record, known);
  return record.state === 'amended' && was !== undefined && was !== text ? { text, was } : { text };
}

/** The member of a record's data that names what it is about: `vesselId` of `vessel.cleaned`. */
function subjectOf(record: CurrentRecord): string | undefined {
  const member: unknown = Reflect.get(record.data, `${record.type.split('.')[0] ?? ''}Id`);
  return typeof member === 'string' ? member : undefined;
}

/** Records as a table, each with its number in the log, its time, what it says and who did it. */
export function recordTable(
  telling: Telling,
  name: string,
  records: readonly CurrentRecord[],
  options: {
    readonly caption?: string;
    readonly known?: ReadonlySet<string>;
    readonly withSubject?: boolean;
    readonly empty?: string;
  } = {},
): TableBlock {
  const own = texts[telling.language];
  const { caption = '', known = new Set<string>(), withSubject = false, empty = own.none } = options;
  return {
    kind: 'table',
    name,
    caption,
    empty,
    columns: [
      { key: 'seq', label: own.number, type: 'number' },
      { key: 'occurredAt', label: telling.words.time(telling.zone), type: 'instant' },
      ...(withSubject ? [{ key: 'of', label: own.of, type: 'text' as const }] : []),
      { key: 'type', label: own.what, type: 'text' },
      { key: 'says', label: own.says, type: 'text', width: 2 },
      { key: 'by', label: own.by, type: 'text' },
    ],
    rows: records.map((record) => {
      const at = momentCell(telling, { at: record.at.at, from: record.at.at, to: record.at.at });
      const subject = subjectOf(record);
      const also = withSubject && subject !== undefined ? new Set([...known, subject]) : known;
      return [
        { text: String(record.seq), value: record.seq },
        { text: `${at.text}${uncertain(telling, record)}`, value: at.value ?? null },
        ...(withSubject ? [{ text: subject === undefined ? '–' : nameOf(telling, subject) }] : []),
        { text: `${typeName(telling, record.type)}${reasonOf(telling, record)}`, value: record.type },
        says(telling, record, also),
        { text: `${doneBy(telling, record)}${origin(telling, record)}` },
      ];
    }),
  };
}
