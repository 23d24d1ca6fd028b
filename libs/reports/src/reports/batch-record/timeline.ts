import type { CurrentRecord } from '@furrowmark/domain';
import type { Block, Cell } from '../../content.ts';
import {
  momentCell,
  originalText,
  personName,
  recordText,
  shortId,
  typeName,
  type Telling,
} from '../../telling/index.ts';
import { batchWords } from './words.ts';

/** Who did it, by name; where the record names nobody, the account that wrote it. */
export function doneBy(telling: Telling, record: CurrentRecord): string {
  if (record.performedBy !== undefined) return personName(telling, record.performedBy);
  return batchWords[telling.language].accountId(shortId(record.recordedBy));
}

const uncertain = (telling: Telling, record: CurrentRecord): string =>
  record.plusMinusMinutes === undefined || record.plusMinusMinutes === 0
    ? ''
    : `\n${telling.words.about(record.plusMinusMinutes)}`;

const origin = (telling: Telling, record: CurrentRecord): string =>
  record.origin === undefined || record.origin === 'observed' ? '' : ` (${telling.words.origins[record.origin]})`;

/** Every record as it stands, the originals of amended ones beside them, withdrawn ones struck through. */
export function timeline(telling: Telling, records: readonly CurrentRecord[], known: ReadonlySet<string>): Block[] {
  const own = batchWords[telling.language];
  const reason = (record: CurrentRecord): string => {
    const step = record.history.findLast((each) => each.inForce && each.kind !== 'original');
    return step?.reason === undefined ? '' : `${telling.words.states[record.state]}: ${step.reason}`;
  };
  const says = (record: CurrentRecord): Cell => {
    const text = recordText(telling, record, known) || '–';
    const was = originalText(telling, record, known);
    if (record.state === 'struck') return { text, struck: true };
    return record.state === 'amended' && was !== undefined && was !== text ? { text, was } : { text };
  };
  return [
    { kind: 'heading', level: 2, text: own.timeline },
    { kind: 'paragraph', text: own.timelineNote },
    {
      kind: 'table',
      name: 'timeline',
      caption: '',
      columns: [
        { key: 'seq', label: own.number, type: 'number' },
        { key: 'occurredAt', label: telling.words.time(telling.zone), type: 'instant' },
        { key: 'type', label: own.what, type: 'text' },
        { key: 'says', label: own.says, type: 'text', width: 2 },
        { key: 'by', label: own.by, type: 'text' },
      ],
      rows: records.map((record) => {
        const at = momentCell(telling, { at: record.at.at, from: record.at.at, to: record.at.at });
        const why = reason(record);
        return [
          { text: String(record.seq), value: record.seq },
          { text: `${at.text}${uncertain(telling, record)}`, value: at.value ?? null },
          { text: `${typeName(telling, record.type)}${why === '' ? '' : `\n${why}`}`, value: record.type },
          says(record),
          { text: `${doneBy(telling, record)}${origin(telling, record)}` },
        ];
      }),
    },
  ];
}
