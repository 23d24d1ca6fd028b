import type { Season } from '@furrowmark/domain';
import { useMemo, useState } from 'react';
import { Choice } from '../app/Choice.tsx';
import { useWordsOf } from '../words/useWords.ts';
import { things, type Thing } from './things.ts';
import { deskWords } from './words.ts';

interface Props {
  readonly season: Season;
  readonly onPick: (thing: Thing) => void;
}

const kinds = ['lot', 'batch', 'field', 'harvest'] as const;
const most = 12;

/** Picks a lot, batch, field or harvest by its code or by what else it is known by. */
export function PickThing({ season, onPick }: Props) {
  const w = useWordsOf(deskWords);
  const [kind, setKind] = useState<Thing['kind'] | 'all'>('all');
  const [text, setText] = useState('');
  const { version } = season;
  const all = useMemo(() => things(season), [season, version]);
  const sought = text.trim().toLowerCase();
  const found = all.filter(
    (thing) =>
      (kind === 'all' || thing.kind === kind) && `${thing.code} ${thing.detail}`.toLowerCase().includes(sought),
  );
  return (
    <div className="stack pick-thing">
      <Choice
        legend={w.pick}
        options={[['all', w.all], ...kinds.map((each) => [each, w[`kind_${each}`]] as const)]}
        value={kind}
        onChange={setKind}
      />
      <label className="stack">
        <span>{w.find}</span>
        <input type="search" value={text} onChange={(event) => setText(event.target.value)} />
      </label>
      {found.length === 0 && <p role="status">{all.length === 0 ? w.nothingToFind : w.nothingFound}</p>}
      <ul className="picks">
        {found.slice(0, most).map((thing) => (
          <li key={thing.kind + thing.id}>
            <button type="button" className="pick" onClick={() => onPick(thing)}>
              <span className="faint small">{w[`kind_${thing.kind}`]}</span> <strong>{thing.code}</strong>{' '}
              <span className="faint small">{thing.detail}</span>
            </button>
          </li>
        ))}
      </ul>
      {found.length > most && <p className="faint">{w.more(found.length - most)}</p>}
    </div>
  );
}
