import { useWordsOf } from '../../words/useWords.ts';
import { SelectEntry } from '../Entry.tsx';
import type { Preview } from './preview.ts';
import { intakeWords, memberText } from './words.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';

interface Props {
  readonly preview: Preview;
  readonly onChoose: (member: string, column: string | null) => void;
}

/** Which column of the file serves what: as proposed from its header, until somebody says otherwise. */
export function Columns({ preview, onChoose }: Props) {
  const w = useWordsOf(intakeWords);
  const { language } = useExternal(settings);
  if (preview.columns.length === 0) return null;
  return (
    <fieldset className="stack">
      <legend>{w.columns}</legend>
      <p className="faint small">{w.columnsHelp}</p>
      <div className="columns">
        {preview.columns.map(({ member, title, needed, column }) => (
          <SelectEntry
            key={member}
            label={memberText(member, title, language)}
            optional={!needed}
            value={column ?? ''}
            onChange={(to) => onChoose(member, to === '' ? null : to)}
            options={[['', w.noColumn], ...preview.header.map((each) => [each, each] as const)]}
          />
        ))}
      </div>
    </fieldset>
  );
}
