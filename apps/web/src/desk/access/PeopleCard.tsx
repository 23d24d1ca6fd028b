import { useState } from 'react';
import { Link } from 'wouter';
import { ask } from '../../http/ask.ts';
import { textOf } from '../../http/read.ts';
import { useAsked } from '../../http/useAsked.ts';
import { session } from '../../session/session.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { SelectEntry, TextEntry } from '../Entry.tsx';
import { SecretOnce } from '../SecretOnce.tsx';
import { Trouble } from '../../refusals/Told.tsx';
import { ServiceForm } from '../ServiceForm.tsx';
import { SureButton } from '../SureButton.tsx';
import { useDay } from '../useDay.ts';
import { deskWords } from '../words.ts';
import { invitationsIn, membersIn, type Member } from './granted.ts';
import { accessWords } from './words.ts';

const roles = ['recorder', 'reviewer', 'manager', 'inspector'] as const;
const base = (): string => `/operations/${session.get()?.operationId ?? ''}`;

/** Everybody who is or was a member; managers invite, change and end. */
export function PeopleCard({ manages }: { readonly manages: boolean }) {
  const w = useWordsOf(accessWords);
  const desk = useWordsOf(deskWords);
  const day = useDay();
  const { value, trouble, again } = useAsked('/members', membersIn);
  const now = value?.filter(({ until }) => until === null) ?? [];
  const left = value?.filter(({ until }) => until !== null) ?? [];
  return (
    <section className="card" aria-labelledby="people">
      <h2 id="people">{w.people}</h2>
      <p className="faint">
        {w.named}{' '}
        <Link href="/registers#people" className="row-link">
          {w.toNamed}
        </Link>
      </p>
      {value === null && <p role="status">{trouble === null ? desk.asking : <Trouble answer={trouble} w={desk} />}</p>}
      <ul className="entries">
        {now.map((member) => (
          <li key={member.accountId} className="stack">
            <p>
              <strong>{member.name}</strong>{' '}
              <span className="faint">
                {w.roleOf(member.role)} · {w.since(day(member.since))}
                {member.pin ? ` · ${w.hasPin}` : ''}
              </span>
            </p>
            {manages && <OneMember member={member} onDone={again} />}
          </li>
        ))}
      </ul>
      {left.length > 0 && (
        <p className="faint small">
          {w.left(left.map(({ name, until }) => `${name} (${day(until ?? '')})`).join(', '))}
        </p>
      )}
      {manages && <Inviting onDone={again} />}
    </section>
  );
}

function OneMember({ member, onDone }: { readonly member: Member; readonly onDone: () => void }) {
  const w = useWordsOf(accessWords);
  const [role, setRole] = useState(member.role);
  const [pin, setPin] = useState('');
  const path = `${base()}/members/${member.accountId}`;
  return (
    <details>
      <summary aria-label={w.changeOf(member.name)}>{w.change}</summary>
      <div className="stack">
        <ServiceForm
          label={w.setRole}
          done={w.roleSet}
          quiet
          send={() => ask(path, { method: 'PUT', json: { role } })}
          onDone={onDone}
        >
          <SelectEntry
            label={w.role}
            help={
              w[`role_${role === 'manager' || role === 'reviewer' || role === 'inspector' ? role : 'recorder'}_help`]
            }
            value={role}
            onChange={setRole}
            options={roles.map((each) => [each, w.roleOf(each)] as const)}
          />
        </ServiceForm>
        <ServiceForm
          label={w.setPin}
          done={w.pinSet}
          quiet
          send={() => ask(`${path}/pin`, { method: 'PUT', json: { pin } })}
          onDone={() => {
            setPin('');
            onDone();
          }}
        >
          <TextEntry label={w.pin} help={w.pinHelp} type="password" inputMode="numeric" value={pin} onChange={setPin} />
        </ServiceForm>
        {member.pin && (
          <SureButton
            label={w.removePin}
            about={member.name}
            sure={w.removePinSure(member.name)}
            send={() => ask(`${path}/pin`, { method: 'DELETE' })}
            onDone={onDone}
          />
        )}
        <SureButton
          label={w.endMembership}
          about={member.name}
          sure={w.endSure(member.name)}
          send={() => ask(path, { method: 'DELETE' })}
          onDone={onDone}
        />
      </div>
    </details>
  );
}

function Inviting({ onDone }: { readonly onDone: () => void }) {
  const w = useWordsOf(accessWords);
  const day = useDay();
  const open = useAsked('/invitations', invitationsIn);
  const [name, setName] = useState('');
  const [role, setRole] = useState('recorder');
  const [pin, setPin] = useState('');
  const [link, setLink] = useState<string | null>(null);
  return (
    <>
      <details>
        <summary>{w.invite}</summary>
        <ServiceForm
          label={pin === '' ? w.makeInvitation : w.addWithPin}
          done={pin === '' ? w.invited : w.added}
          send={() =>
            ask(`${base()}/members`, { method: 'POST', json: { name, role, ...(pin === '' ? {} : { pin }) } })
          }
          onDone={(body) => {
            const secret = textOf(body, 'invitation');
            setLink(secret === null ? null : `${location.origin}/#invitation=${encodeURIComponent(secret)}`);
            setName('');
            setPin('');
            open.again();
            onDone();
          }}
        >
          <TextEntry label={w.name} help={w.nameHelp} value={name} onChange={setName} />
          <SelectEntry
            label={w.role}
            value={role}
            onChange={setRole}
            options={roles.map((each) => [each, w.roleOf(each)] as const)}
          />
          <TextEntry
            label={w.pinOnly}
            help={w.pinOnlyHelp}
            type="password"
            inputMode="numeric"
            value={pin}
            onChange={setPin}
            optional
          />
        </ServiceForm>
        {link !== null && <SecretOnce label={w.invitationLink} link={link} />}
      </details>
      {(open.value?.length ?? 0) > 0 && (
        <>
          <h3>{w.openInvitations}</h3>
          <ul className="entries">
            {open.value?.map((each) => (
              <li key={each.invitationId} className="row spread">
                <span>
                  {each.name} · {w.roleOf(each.role)} · {w.untilDay(day(each.expiresAt))}
                </span>
                <SureButton
                  label={w.takeBack}
                  about={each.name}
                  sure={w.takeBackSure(each.name)}
                  send={() => ask(`${base()}/invitations/${each.invitationId}`, { method: 'DELETE' })}
                  onDone={open.again}
                />
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}
