import type { CurrentRecord, LogRecord } from '@furrowmark/domain';
import { Choice } from '../../app/Choice.tsx';
import { useMayRecord } from '../../session/useMayRecord.ts';
import { useTyped } from '../../tank/useTyped.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { RecordForm, type Fact } from '../RecordForm.tsx';
import { changesIn, dataOf, drafted, draftedAgain, type Drafted } from './draft.ts';
import { doubtIn } from './doubt.ts';
import { Fields } from './Fields.tsx';
import { isRegisterType, registers, type RegisterType } from './members.ts';
import { registerWords } from './words.ts';

const everyWay = ['amend', 'revise', 'strike', 'retire'] as const;
type Way = (typeof everyWay)[number];

/** What is written in the form. */
type Correction = Readonly<{ way: Way; reason: string; amended: Drafted; revised: Drafted }>;

function correctionAgain(first: Correction, kept: object): Correction {
  const [way, reason, amended, revised]: readonly unknown[] = ['way', 'reason', 'amended', 'revised'].map((name) =>
    Reflect.get(kept, name),
  );
  return {
    way: everyWay.find((each) => each === way) ?? first.way,
    reason: typeof reason === 'string' ? reason : first.reason,
    amended: draftedAgain(first.amended, amended),
    revised: draftedAgain(first.revised, revised),
  };
}

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
  const present = now ?? record.data;
  const { values, set, done, begun } = useTyped(
    ['correct', record.id],
    (): Correction => ({
      way: 'amend',
      reason: '',
      amended: drafted(register.members, record.data),
      revised: drafted(register.members, present),
    }),
    correctionAgain,
  );
  const { way, reason, amended, revised } = values;
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
    const found = doubtIn(type, then, local.engine.domain);
    return found === null ? null : w[found];
  };
  const ways: readonly (readonly [Way, string])[] = [
    ['amend', w.amend],
    ...(register.changes ? ([['revise', w.revise]] as const) : []),
    ['strike', w.strike],
    ...(register.changes ? ([['retire', w.retire]] as const) : []),
  ];
  return (
    <RecordForm local={local} facts={facts} doubt={doubt} begun={begun} onDone={() => done({ reason: '' })}>
      <Choice legend={w.way} options={ways} value={way} onChange={set('way')} help={w[`${way}_help`]} />
      {way === 'amend' && <Fields members={register.members} form={amended} onChange={set('amended')} />}
      {way === 'revise' && <Fields members={register.members} form={revised} onChange={set('revised')} />}
      {way !== 'revise' && <TextEntry label={w.reason} help={w.reasonHelp} value={reason} onChange={set('reason')} />}
    </RecordForm>
  );
}
