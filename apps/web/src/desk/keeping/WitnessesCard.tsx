import { useState } from 'react';
import { ask } from '../../http/ask.ts';
import { listOf, memberOf, numberOf, textOf } from '../../http/read.ts';
import { useAsked } from '../../http/useAsked.ts';
import { session } from '../../session/session.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, TextEntry } from '../Entry.tsx';
import { Told, Trouble } from '../../refusals/Told.tsx';
import { ServiceForm } from '../ServiceForm.tsx';
import { SureButton } from '../SureButton.tsx';
import { useDay } from '../useDay.ts';
import { deskWords } from '../words.ts';
import { keepingWords } from './words.ts';

const witnessesIn = (body: unknown) => ({
  mail: memberOf(body, 'mail') === true,
  witnesses: listOf(body, 'witnesses').map((each) => ({
    witnessId: textOf(each, 'witnessId') ?? '',
    address: textOf(each, 'address') ?? '',
    everyDays: numberOf(each, 'everyDays') ?? 0,
    sentAt: textOf(each, 'sentAt'),
    sentSize: numberOf(each, 'sentSize'),
    failure: textOf(each, 'failure'),
  })),
});

/** Who outside is sent the log's checkpoint, and whether the last letter went out. */
export function WitnessesCard() {
  const w = useWordsOf(keepingWords);
  const desk = useWordsOf(deskWords);
  const day = useDay();
  const { value, trouble, again } = useAsked('/log/witnesses', witnessesIn);
  const [address, setAddress] = useState('');
  const [everyDays, setDays] = useState('30');
  const path = `/operations/${session.get()?.operationId ?? ''}/log/witnesses`;
  return (
    <section className="card" aria-labelledby="witnesses">
      <h2 id="witnesses">{w.witnesses}</h2>
      <p className="faint">{w.witnessesText}</p>
      {value === null && <p role="status">{trouble === null ? desk.asking : <Trouble answer={trouble} w={desk} />}</p>}
      {value?.mail === false && (
        <p role="note" className="notice">
          {w.noMail}
        </p>
      )}
      {value?.witnesses.length === 0 && <p className="faint">{w.noWitnesses}</p>}
      <ul className="entries">
        {value?.witnesses.map((each) => (
          <li key={each.witnessId} className="row spread">
            <span>
              <strong>{each.address}</strong>{' '}
              <span className="faint">
                {w.every(each.everyDays)} ·{' '}
                {each.sentAt === null ? w.notYet : w.sent(day(each.sentAt), each.sentSize ?? 0)}
              </span>
              {each.failure !== null && (
                <span className="problem">
                  {' '}
                  {w.failed} <Told text={each.failure} />
                </span>
              )}
            </span>
            <SureButton
              label={w.endWitness}
              about={each.address}
              sure={w.endWitnessSure(each.address)}
              send={() => ask(`${path}/${each.witnessId}`, { method: 'DELETE' })}
              onDone={again}
            />
          </li>
        ))}
      </ul>
      <details>
        <summary>{w.addWitness}</summary>
        <ServiceForm
          label={w.addWitness}
          done={w.witnessAdded}
          send={() => ask(path, { method: 'POST', json: { address: address.trim(), everyDays: Number(everyDays) } })}
          onDone={() => {
            setAddress('');
            again();
          }}
        >
          <TextEntry label={w.address} help={w.addressHelp} type="email" value={address} onChange={setAddress} />
          <FigureEntry label={w.everyDays} value={everyDays} onChange={setDays} />
        </ServiceForm>
      </details>
    </section>
  );
}
