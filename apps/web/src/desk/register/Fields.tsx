import { useWordsOf } from '../../words/useWords.ts';
import { OutlineEntry } from '../field/outline/OutlineEntry.tsx';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import { Several } from '../Several.tsx';
import { deskWords } from '../words.ts';
import { askedOf, drafted, type Drafted, type DraftedValue } from './draft.ts';
import type { Member, ThingKind } from './members.ts';
import { choiceText, memberName, registerWords } from './words.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';

interface Props {
  readonly members: readonly Member[];
  readonly form: Drafted;
  readonly onChange: (form: Drafted) => void;
  /** What there is to pick from, where a member asks for a thing. */
  readonly things?: ThingsOf | undefined;
}

/** The things of a kind: id, and what people call it. */
export type ThingsOf = (kind: ThingKind) => readonly (readonly [id: string, name: string])[];

/** The members of a record, each with the control that suits it. */
export function Fields({ members, form, onChange, things }: Props) {
  return askedOf(members, form).map((member) => (
    <OneField
      key={member.name}
      member={member}
      value={form[member.name]}
      things={things}
      onChange={(value) => onChange({ ...form, [member.name]: value })}
    />
  ));
}

interface OneProps {
  readonly member: Member;
  readonly value: DraftedValue | undefined;
  readonly onChange: (value: DraftedValue) => void;
  readonly things: ThingsOf | undefined;
}

const qualifiers = ['', '<', '>', 'notDetected'] as const;

function OneField({
  member: { name, control, optional: mayBeLeft, label: called },
  value,
  onChange,
  things,
}: OneProps) {
  const optional = mayBeLeft === true;
  const w = useWordsOf(registerWords);
  const desk = useWordsOf(deskWords);
  const { language } = useExternal(settings);
  const label = memberName(called ?? name, language);
  const text = value?.kind === 'text' || value?.kind === 'quantity' ? value.text : '';
  const write = (to: string): void => onChange({ kind: 'text', text: to });
  switch (control.kind) {
    case 'quantity': {
      const unit = value?.kind === 'quantity' ? value.unit : '';
      const units = control.units.some(([each]) => each === unit)
        ? control.units
        : [[unit, unit] as const, ...control.units];
      const now = {
        kind: 'quantity',
        text,
        unit,
        qualifier: (value?.kind === 'quantity' && value.qualifier) || '',
      } as const;
      return (
        <>
          {control.qualified === true && (
            <SelectEntry
              label={w.qualifierOf(label)}
              optional
              value={now.qualifier}
              onChange={(qualifier) => onChange({ ...now, qualifier })}
              options={qualifiers.map((each) => [each, w[`is_${each}`]] as const)}
            />
          )}
          <div className={control.qualified === true ? 'with-unit long-unit' : 'with-unit'}>
            <FigureEntry
              label={now.qualifier === 'notDetected' ? w.detectionLimit : label}
              optional={optional}
              value={text}
              onChange={(to) => onChange({ ...now, text: to })}
            />
            <SelectEntry
              label={w.unitOf(label)}
              value={unit}
              onChange={(to) => onChange({ ...now, unit: to })}
              options={units}
            />
          </div>
        </>
      );
    }
    case 'count':
      return <FigureEntry label={label} optional={optional} value={text} onChange={write} />;
    case 'moment':
      return <TextEntry label={label} type="datetime-local" optional={optional} value={text} onChange={write} />;
    case 'thing':
      return (
        <SelectEntry
          label={label}
          optional={optional}
          value={text}
          onChange={write}
          options={[['', '–'], ...(things?.(control.of) ?? [])]}
        />
      );
    case 'outline':
      return <OutlineEntry value={text} onChange={write} />;
    case 'rows':
      return (
        <Rows
          legend={label}
          members={control.of}
          rows={value?.kind === 'rows' ? value.rows : []}
          onChange={(rows) => onChange({ kind: 'rows', rows })}
          things={things}
        />
      );
    case 'several':
      return (
        <Several
          legend={label}
          options={control.of.map((each) => [each, choiceText(each, language)] as const)}
          chosen={value?.kind === 'several' ? value.chosen : []}
          onChange={(chosen) => onChange({ kind: 'several', chosen })}
        />
      );
    case 'one': {
      const known = text === '' || control.of.includes(text) ? control.of : [text, ...control.of];
      return (
        <SelectEntry
          label={label}
          optional={optional}
          value={text}
          onChange={write}
          options={[
            ...(optional ? [['', '–'] as const] : []),
            ...known.map((each) => [each, choiceText(each, language)] as const),
          ]}
        />
      );
    }
    case 'flag':
      return (
        <SelectEntry
          label={label}
          value={text}
          onChange={write}
          options={[
            ['no', choiceText('no', language)],
            ['yes', choiceText('yes', language)],
          ]}
        />
      );
    default:
      return (
        <TextEntry
          label={label}
          type={control.kind === 'date' ? 'date' : 'text'}
          optional={optional || name === 'supplierLot'}
          value={text}
          onChange={write}
          {...(name === 'plantedOn' ? { help: desk.dayOrYear } : {})}
        />
      );
  }
}

interface RowsProps {
  readonly legend: string;
  readonly members: readonly Member[];
  readonly rows: readonly Drafted[];
  readonly onChange: (rows: readonly Drafted[]) => void;
  readonly things: ThingsOf | undefined;
}

/** Several of the same: each with its own members, one more on a touch. */
function Rows({ legend, members, rows, onChange, things }: RowsProps) {
  const w = useWordsOf(registerWords);
  return (
    <div className="stack">
      {rows.map((row, i) => (
        <fieldset key={i} className="card stack">
          <legend>{rows.length === 1 ? legend : `${legend} ${String(i + 1)}`}</legend>
          <Fields
            members={members}
            form={row}
            things={things}
            onChange={(to) => onChange(rows.map((each, k) => (k === i ? to : each)))}
          />
          {rows.length > 1 && (
            <p>
              <button
                type="button"
                className="button quiet"
                onClick={() => onChange(rows.filter((_, k) => k !== i))}
                aria-label={`${w.leaveOut}: ${legend} ${String(i + 1)}`}
              >
                {w.leaveOut}
              </button>
            </p>
          )}
        </fieldset>
      ))}
      <p>
        <button type="button" className="button quiet" onClick={() => onChange([...rows, drafted(members, {})])}>
          {w.oneMore(legend)}
        </button>
      </p>
    </div>
  );
}
