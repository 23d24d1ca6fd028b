import type { CurrentRecord, LogRecord } from '@furrowmark/domain';
import { useState } from 'react';
import { Choice } from '../../app/Choice.tsx';
import { useMayRecord } from '../../session/useMayRecord.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { RecordForm, type Fact } from '../RecordForm.tsx';
import { changesIn, dataOf, drafted } from './draft.ts';
import { doubtIn } from './doubt.ts';
import { Fields } from './Fields.tsx';
import { isRegisterType, registers, type RegisterType } from './members.ts';
import { registerWords } from './words.ts';

type Way = 'amend' | 'revise' | 'strike' | 'retire';

interface Props {
  readonly local: Ready;
  /** The record that begins the thing: `lot.received`, `field.registered`. */
  readonly recordId: string;
  /** What it says now, revisions included; what a change begins with. */
  readonly now?: object | undefined;
}

/**
 * Puts a register right. What was written wrongly is amended and was so from the beginning; what has changed is revised and
 * leaves the past as it was; what never was is struck; what goes out of use is retired. Nothing is deleted.
 */
export function Correct({ local, recordId, now }: Props) {
  const w = useWordsOf(registerWords);
  const mayRecord = useMayRecord();
  const record = local.season.record(recordId);
  if (record === undefined || !isRegisterType(record.type) || !mayRecord) return null;
  return (
    <details className="card no-print">
      <summary>{w.correct}</summary>
      <CorrectForm key={JSON.stringify(record.data)} local={local} record={record} type={record.type} now={now} />
    </details>
  );
}

interface FormProps extends Omit<Props, 'recordId'> {
  readonly record: CurrentRecord;
  readonly type: RegisterType;
}

const typeOf = (type: RegisterType, step: 'revised' | 'retired'): LogRecord['type'] | null => {
  switch (type) {
    case 'source.registered':
      return `source.${step}`;
    case 'vessel.registered':
      return `vessel.${step}`;
    case 'instrument.registered':
      return `instrument.${step}`;
    case 'equipment.registered':
      return `equipment.${step}`;
    case 'measure.registered':
      return `measure.${step}`;
    case 'material.registered':
      return `material.${step}`;
    case 'field.registered':
      return `field.${step}`;
    default:
      return null;
  }
};

function CorrectForm({ local, record, type, now }: FormProps) {
  const w = useWordsOf(registerWords);
  const register = registers[type];
  const [way, setWay] = useState<Way>('amend');
  const [reason, setReason] = useState('');
  const [amended, setAmended] = useState(() => drafted(register.members, record.data));
  const present = now ?? record.data;
  const [revised, setRevised] = useState(() => drafted(register.members, present));
  const thing: unknown = Reflect.get(record.data, register.id);
  const of = { recordId: record.id, type: record.type };
  const facts = (): readonly Fact[] | null => {
    switch (way) {
      case 'amend':
        return [
          {
            type: 'record.amended',
            data: { ...of, version: record.version, data: dataOf(register.members, amended, record.data), reason },
          },
        ];
      case 'strike':
        return [{ type: 'record.struck', data: { ...of, reason } }];
      case 'revise': {
        const changes = changesIn(register.members, revised, present);
        const revisedType = typeOf(type, 'revised');
        if (revisedType === null || Object.keys(changes).length === 0) return null;
        return [{ type: revisedType, data: { [register.id]: thing, ...changes } }];
      }
      case 'retire': {
        const retiredType = typeOf(type, 'retired');
        return retiredType === null ? null : [{ type: retiredType, data: { [register.id]: thing, reason } }];
      }
    }
  };
  /** Doubted is what would stand then, not the correction by itself. */
  const doubt = (): string | null => {
    const then =
      way === 'amend'
        ? dataOf(register.members, amended, record.data)
        : way === 'revise'
          ? { ...present, ...changesIn(register.members, revised, present) }
          : {};
    const found = doubtIn(type, then, local.engine.domain.numberIn);
    return found === null ? null : w[found];
  };
  const ways: readonly (readonly [Way, string])[] = [
    ['amend', w.amend],
    ...(register.changes ? ([['revise', w.revise]] as const) : []),
    ['strike', w.strike],
    ...(register.changes ? ([['retire', w.retire]] as const) : []),
  ];
  return (
    <RecordForm local={local} facts={facts} doubt={doubt} onDone={() => setReason('')}>
      <Choice legend={w.way} options={ways} value={way} onChange={setWay} help={w[`${way}_help`]} />
      {way === 'amend' && <Fields members={register.members} form={amended} onChange={setAmended} />}
      {way === 'revise' && <Fields members={register.members} form={revised} onChange={setRevised} />}
      {way !== 'revise' && <TextEntry label={w.reason} help={w.reasonHelp} value={reason} onChange={setReason} />}
    </RecordForm>
  );
}
