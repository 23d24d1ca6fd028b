import { instantOf, type CurrentRecord } from '@furrowmark/domain';
import { localTime } from '../clock.ts';
import type { Cell, TableBlock } from '../content.ts';
import {
  instantCell,
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
  of: 'About',
  says: 'Says',
  by: 'By',
  none: 'Nothing recorded.',
  account: (id: string) => `account ${id}`,
};
type Text = typeof en;
const es: Text = {
  number: 'N.º',
  what: 'Qué',
  of: 'Sobre',
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

/** Why a record was amended or struck, by which record, when that was written down, and who did it. */
function reasonOf(telling: Telling, record: CurrentRecord): string {
  const step = record.history.findLast((each) => each.inForce && each.kind !== 'original');
  if (step?.reason === undefined) return '';
  const correction = telling.season.record(step.recordId);
  const by = correction === undefined ? '' : `, ${doneBy(telling, correction)}`;
  const written = localTime(instantOf(step.recordedAt), telling.zone);
  const number = texts[telling.language].number;
  return `\n${telling.words.states[record.state]}: ${step.reason} (${number} ${step.seq}, ${written}${by})`;
}

/** When it happened, with the time first written beside an amended one. */
function timeCell(telling: Telling, record: CurrentRecord): Cell {
  const { text, value = null } = instantCell(telling, record.at.at);
  const first = record.history.find(({ kind }) => kind === 'original');
  const was = first === undefined ? text : localTime(instantOf(first.occurredAt), telling.zone);
  return { text: `${text}${uncertain(telling, record)}`, value, ...(was === text ? {} : { was }) };
}

/** What it says, with the original beside an amendment and a withdrawn one struck through. */
function says(telling: Telling, record: CurrentRecord, known: ReadonlySet<string>): Cell {
  const text = recordText(telling, record, known) || '–';
  if (record.state === 'struck') return { text, struck: true };
  const was = originalText(telling, record, known);
  return record.state === 'amended' && was !== undefined && was !== text ? { text, was } : { text };
}

/** What has no name but its id: the record says what there is to say. */
const nameless: ReadonlySet<string> = new Set(['inspection', 'finding']);

/** The member of a record's data that names what it is about: `vesselId` of `vessel.cleaned`. */
function subjectOf(record: CurrentRecord): string | undefined {
  const kind = record.type.split('.')[0] ?? '';
  const member: unknown = Reflect.get(record.data, `${kind}Id`);
  return typeof member === 'string' && !nameless.has(kind) ? member : undefined;
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
      const subject = subjectOf(record);
      const also = withSubject && subject !== undefined ? new Set([...known, subject]) : known;
      return [
        { text: String(record.seq), value: record.seq },
        timeCell(telling, record),
        ...(withSubject ? [{ text: subject === undefined ? '–' : nameOf(telling, subject) }] : []),
        { text: `${typeName(telling, record.type)}${reasonOf(telling, record)}`, value: record.type },
        says(telling, record, also),
        { text: `${doneBy(telling, record)}${origin(telling, record)}` },
      ];
    }),
  };
}
