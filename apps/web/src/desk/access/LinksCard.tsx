import { useState } from 'react';
import { ask } from '../../http/ask.ts';
import { textOf } from '../../http/read.ts';
import { useAsked } from '../../http/useAsked.ts';
import { session } from '../../session/session.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, TextEntry } from '../Entry.tsx';
import { SecretOnce } from '../SecretOnce.tsx';
import { ServiceForm } from '../ServiceForm.tsx';
import { SureButton } from '../SureButton.tsx';
import { useDay } from '../useDay.ts';
import { deskWords } from '../words.ts';
import { linksIn, type ReadingLink } from './granted.ts';
import { accessWords } from './words.ts';

/** Links for somebody outside, an inspector above all: reading only, for a while and a period. */
export function LinksCard() {
  const w = useWordsOf(accessWords);
  const { value, again } = useAsked('/access-links', linksIn);
  const [purpose, setPurpose] = useState('');
  const [from, setFrom] = useState('');
  const [until, setUntil] = useState('');
  const [life, setLife] = useState('30');
  const [link, setLink] = useState<string | null>(null);
  const path = `/operations/${session.get()?.operationId ?? ''}/access-links`;
  return (
    <section className="card" aria-labelledby="links">
      <h2 id="links">{w.links}</h2>
      <p className="faint">{w.linksText}</p>
      {value?.length === 0 && <p className="faint">{w.noLinks}</p>}
      <ul className="entries">
        {value?.map((each) => (
          <OneLink key={each.accessId} link={each} path={path} onDone={again} />
        ))}
      </ul>
      <details>
        <summary>{w.makeLink}</summary>
        <ServiceForm
          label={w.makeLink}
          done={w.linkMade}
          send={() =>
            ask(path, {
              method: 'POST',
              json: {
                lifeDays: Number(life),
                ...(purpose === '' ? {} : { purpose }),
                ...(from === '' ? {} : { from }),
                ...(until === '' ? {} : { until }),
              },
            })
          }
          onDone={(body) => {
            setLink(textOf(body, 'url'));
            setPurpose('');
            again();
          }}
        >
          <TextEntry label={w.purpose} help={w.purposeHelp} value={purpose} onChange={setPurpose} optional />
          <div className="two">
            <TextEntry label={w.readsFrom} type="date" value={from} onChange={setFrom} optional />
            <TextEntry label={w.readsUntil} type="date" value={until} onChange={setUntil} optional />
          </div>
          <p className="faint small">{w.readsHelp}</p>
          <FigureEntry label={w.lifeDays} help={w.lifeHelp} value={life} onChange={setLife} />
        </ServiceForm>
        {link !== null && <SecretOnce label={w.readingLink} link={link} />}
      </details>
    </section>
  );
}

interface OneProps {
  readonly link: ReadingLink;
  readonly path: string;
  readonly onDone: () => void;
}

function OneLink({ link, path, onDone }: OneProps) {
  const w = useWordsOf(accessWords);
  const desk = useWordsOf(deskWords);
  const day = useDay();
  const { accessId, purpose, createdAt, expiresAt, withdrawnAt, lastUsedOn } = link;
  const over = withdrawnAt !== null || Date.parse(expiresAt) < Date.now();
  const name = purpose ?? w.noPurpose;
  return (
    <li className="row spread">
      <span>
        <strong>{name}</strong>{' '}
        <span className="faint">
          {w.madeOn(day(createdAt))} · {w.reads(link.from ?? '…', link.until ?? '…')} ·{' '}
          {w.lastUsed(lastUsedOn ?? desk.never)} ·{' '}
          {withdrawnAt !== null
            ? w.withdrawnOn(day(withdrawnAt))
            : over
              ? w.endedOn(day(expiresAt))
              : w.untilDay(day(expiresAt))}
        </span>
      </span>
      {!over && (
        <SureButton
          label={w.withdraw}
          about={name}
          sure={w.withdrawLinkSure}
          send={() => ask(`${path}/${accessId}`, { method: 'DELETE' })}
          onDone={onDone}
        />
      )}
    </li>
  );
}
