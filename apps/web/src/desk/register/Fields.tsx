import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import { Several } from '../Several.tsx';
import { deskWords } from '../words.ts';
import type { Drafted, DraftedValue } from './draft.ts';
import type { Member } from './members.ts';
import { choiceText, memberName, registerWords } from './words.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';

interface Props {
  readonly members: readonly Member[];
  readonly form: Drafted;
  readonly onChange: (form: Drafted) => void;
}

/** The members of a register's record, each with the control that suits it. */
export function Fields({ members, form, onChange }: Props) {
  return members.map((member) => (
    <OneField
      key={member.name}
      member={member}
      value={form[member.name]}
      onChange={(value) => onChange({ ...form, [member.name]: value })}
    />
  ));
}

interface OneProps {
  readonly member: Member;
  readonly value: DraftedValue | undefined;
  readonly onChange: (value: DraftedValue) => void;
}

function OneField({ member: { name, control, optional: mayBeLeft }, value, onChange }: OneProps) {
  const optional = mayBeLeft === true;
  const w = useWordsOf(registerWords);
  const desk = useWordsOf(deskWords);
  const { language } = useExternal(settings);
  const label = memberName(name, language);
  const text = value?.kind === 'text' || value?.kind === 'quantity' ? value.text : '';
  const write = (to: string): void => onChange({ kind: 'text', text: to });
  switch (control.kind) {
    case 'quantity': {
      const unit = value?.kind === 'quantity' ? value.unit : '';
      const units = control.units.some(([each]) => each === unit)
        ? control.units
        : [[unit, unit] as const, ...control.units];
      return (
        <div className="with-unit">
          <FigureEntry
            label={label}
            optional={optional}
            value={text}
            onChange={(to) => onChange({ kind: 'quantity', text: to, unit })}
          />
          <SelectEntry
            label={w.unitOf(label)}
            value={unit}
            onChange={(to) => onChange({ kind: 'quantity', text, unit: to })}
            options={units}
          />
        </div>
      );
    }
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
          type={control.kind}
          optional={optional || name === 'supplierLot'}
          value={text}
          onChange={write}
          {...(name === 'plantedOn' ? { help: desk.dayOrYear } : {})}
        />
      );
  }
}
