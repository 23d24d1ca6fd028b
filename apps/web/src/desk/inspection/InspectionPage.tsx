import { useEffect, useState } from 'react';
import { Account } from '../../batch/Account.tsx';
import { clockText } from '../../clock/text.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { TextEntry } from '../Entry.tsx';
import { FileButton } from '../FileButton.tsx';
import { LotBalance } from '../lot/LotBalance.tsx';
import { PickThing } from '../PickThing.tsx';
import { onSeason, type Ready } from '../ready.tsx';
import type { Thing } from '../things.ts';
import { HarvestBalance } from '../trace/HarvestBalance.tsx';
import { RecallSheet } from '../trace/RecallSheet.tsx';
import { askedBy } from '../report/period.ts';
import { TraceView } from '../trace/TraceView.tsx';
import { deskWords } from '../words.ts';
import { ArchiveCheckCard } from './ArchiveCheckCard.tsx';
import './inspection.css';
import { LinkReach } from './LinkReach.tsx';
import { VerifyCard } from './VerifyCard.tsx';
import { inspectionWords } from './words.ts';

type Way = 'forward' | 'backward' | 'balance';

/** One question of an exercise, and how long its answer took. */
interface Timed {
  readonly thing: Thing;
  readonly way: Way;
  readonly askedAt: number;
  readonly ms: number;
}

/** Minutes and seconds, and tenths under a minute: `0:07.4`, `2:05`. */
export function stopwatchText(ms: number): string {
  const seconds = ms / 1000;
  const whole = Math.floor(seconds / 60);
  const rest = seconds - whole * 60;
  return whole === 0
    ? `0:${rest.toFixed(1).padStart(4, '0')}`
    : `${String(whole)}:${String(Math.floor(rest)).padStart(2, '0')}`;
}

/** An inspector's page: a thing, both ways, its balance, the packet, a page verified; with the time each answer took. */
export default onSeason(function InspectionPage({ local }) {
  const w = useWordsOf(inspectionWords);
  const desk = useWordsOf(deskWords);
  const [asked, setAsked] = useState<{ readonly thing: Thing; readonly at: number } | null>(null);
  const [way, setWay] = useState<Way>('forward');
  const [timed, setTimed] = useState<readonly Timed[]>([]);
  const zone = local.season.timeZone;
  return (
    <section className="page inspection">
      <h1>{w.title}</h1>
      <p className="faint no-print">{w.intro}</p>
      <LinkReach zone={zone} />
      {asked === null ? (
        <section className="card no-print">
          <p className="faint">{w.clockIdle}</p>
          <PickThing
            season={local.season}
            onPick={(thing) => {
              setAsked({ thing, at: Date.now() });
              setWay(thing.kind === 'lot' || thing.kind === 'batch' ? 'forward' : 'backward');
            }}
          />
        </section>
      ) : (
        <>
          <section className="card" aria-labelledby="question">
            <header className="row spread">
              <h2 id="question">{w.question(`${desk[`kind_${asked.thing.kind}`]} ${asked.thing.code}`)}</h2>
              <Stopwatch since={asked.at} label={w.clock} />
            </header>
            <div className="row no-print">
              {(['forward', 'backward', 'balance'] as const).map((each) => (
                <button
                  key={each}
                  type="button"
                  className="chip"
                  aria-pressed={way === each}
                  onClick={() => setWay(each)}
                >
                  {w[each]}
                </button>
              ))}
            </div>
            <div className="row no-print">
              <button
                type="button"
                className="button"
                onClick={() => {
                  setTimed([...timed, { thing: asked.thing, way, askedAt: asked.at, ms: Date.now() - asked.at }]);
                  setAsked({ ...asked, at: Date.now() });
                }}
              >
                {w.answered}
              </button>
              <button type="button" className="button quiet" onClick={() => setAsked(null)}>
                {w.anotherQuestion}
              </button>
            </div>
          </section>
          <Answer local={local} thing={asked.thing} way={way} />
        </>
      )}
      {timed.length > 0 && (
        <section className="card" aria-labelledby="done">
          <h2 id="done">{w.done}</h2>
          <table>
            <thead>
              <tr>
                <th scope="col">{w.step}</th>
                <th scope="col">{w.way}</th>
                <th scope="col">{w.asked}</th>
                <th scope="col" className="number">
                  {w.time}
                </th>
              </tr>
            </thead>
            <tbody>
              {timed.map(({ thing, way: taken, askedAt, ms }) => (
                <tr key={askedAt}>
                  <th scope="row">
                    {desk[`kind_${thing.kind}`]} {thing.code}
                  </th>
                  <td>{w[taken]}</td>
                  <td>{clockText(askedAt, zone)}</td>
                  <td className="number">{stopwatchText(ms)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <div className="row no-print">
            <button type="button" className="button quiet" onClick={() => window.print()}>
              {desk.print}
            </button>
            <button type="button" className="button quiet" onClick={() => setTimed([])}>
              {w.clear}
            </button>
          </div>
        </section>
      )}
      <Packet />
      <VerifyCard />
      <ArchiveCheckCard />
    </section>
  );
});

function Stopwatch({ since, label }: { readonly since: number; readonly label: string }) {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 200);
    return () => clearInterval(timer);
  }, []);
  return (
    <p className="stopwatch" role="timer" aria-label={label} aria-live="off">
      {stopwatchText(Math.max(0, now - since))}
    </p>
  );
}

function Answer({ local, thing, way }: { readonly local: Ready; readonly thing: Thing; readonly way: Way }) {
  const w = useWordsOf(inspectionWords);
  const { season } = local;
  const { kind, id } = thing;
  const lot = kind === 'lot' ? season.lot(id) : undefined;
  const batch = kind === 'batch' ? season.batch(id) : undefined;
  if (way === 'balance') {
    if (batch !== undefined) return <Account local={local} batch={batch} />;
    const harvest = kind === 'harvest' ? season.harvest(id) : undefined;
    if (harvest !== undefined) return <HarvestBalance local={local} harvest={harvest} />;
    if (lot === undefined) return <p>{w.noBalance}</p>;
    return (
      <section className="card" aria-label={w.balanceOf(lot.code)}>
        <h2>{w.balanceOf(lot.code)}</h2>
        <LotBalance local={local} lot={lot} />
      </section>
    );
  }
  return (
    <>
      {lot !== undefined && lot.recalls.length > 0 && way === 'forward' && <RecallSheet local={local} lot={lot} />}
      <TraceView key={kind + id + way} local={local} root={{ kind, id }} direction={way} />
    </>
  );
}

function Packet() {
  const w = useWordsOf(inspectionWords);
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  return (
    <section className="card no-print" aria-labelledby="packet">
      <h2 id="packet">{w.packet}</h2>
      <p className="faint">{w.packetText}</p>
      <div className="two">
        <TextEntry label={w.from} help={w.period} type="date" optional value={from} onChange={setFrom} />
        <TextEntry label={w.until} type="date" optional value={to} onChange={setTo} />
      </div>
      <p>
        <FileButton
          report={`inspection-packet.pdf?${askedBy({ from, to })}`}
          name={`${['inspection', from, to].filter((part) => part !== '').join('-')}.pdf`}
          label={w.getPacket}
        />
      </p>
    </section>
  );
}
