import { useState } from 'react';
import { ask } from '../../http/ask.ts';
import { textOf } from '../../http/read.ts';
import { useAsked } from '../../http/useAsked.ts';
import { session } from '../../session/session.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { TextEntry } from '../Entry.tsx';
import { SecretOnce } from '../SecretOnce.tsx';
import { ServiceForm } from '../ServiceForm.tsx';
import { SureButton } from '../SureButton.tsx';
import { useDay } from '../useDay.ts';
import { deskWords } from '../words.ts';
import { phonesIn } from './granted.ts';
import { accessWords } from './words.ts';

/** Phones that several people share: each person proves with a PIN who holds it. */
export function PhonesCard() {
  const w = useWordsOf(accessWords);
  const desk = useWordsOf(deskWords);
  const day = useDay();
  const { value, again } = useAsked('/phones', phonesIn);
  const [label, setLabel] = useState('');
  const [link, setLink] = useState<string | null>(null);
  const operationId = session.get()?.operationId ?? '';
  return (
    <section className="card" aria-labelledby="phones">
      <h2 id="phones">{w.phones}</h2>
      <p className="faint">{w.phonesText}</p>
      {value?.length === 0 && <p className="faint">{w.noPhones}</p>}
      <ul className="entries">
        {value?.map((phone) => (
          <li key={phone.tokenId} className="row spread">
            <span>
              <strong>{phone.label}</strong>{' '}
              <span className="faint">
                {w.lastUsed(phone.lastUsedAt === null ? desk.never : day(phone.lastUsedAt))} ·{' '}
                {w.untilDay(day(phone.expiresAt))}
              </span>
            </span>
            <SureButton
              label={w.withdraw}
              about={phone.label}
              sure={w.withdrawPhoneSure(phone.label)}
              send={() => ask(`/operations/${operationId}/phones/${phone.tokenId}`, { method: 'DELETE' })}
              onDone={again}
            />
          </li>
        ))}
      </ul>
      <details>
        <summary>{w.addPhone}</summary>
        <ServiceForm
          label={w.makePhone}
          done={w.phoneMade}
          send={() => ask(`/operations/${operationId}/phones`, { method: 'POST', json: { label } })}
          onDone={(body) => {
            const token = textOf(body, 'token');
            setLink(token === null ? null : `${location.origin}/#token=${token}&operation=${operationId}`);
            setLabel('');
            again();
          }}
        >
          <TextEntry label={w.phoneLabel} help={w.phoneLabelHelp} value={label} onChange={setLabel} />
        </ServiceForm>
        {link !== null && <SecretOnce label={w.phoneLink} link={link} />}
      </details>
    </section>
  );
}
