import type { Lot } from '@furrowmark/domain';
import { useState } from 'react';
import { Link, useParams } from 'wouter';
import { dateText, dayText, whenText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { leftOf, troubleOf } from '../../lots/lots.ts';
import { quantityText, roundText, unitText } from '../../quantity/text.ts';
import { useTankWords } from '../../tank/useTank.ts';
import { useTypedTexts } from '../../tank/useTyped.ts';
import { Verdicts } from '../../verdict/Verdicts.tsx';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import { DocumentsOf } from '../documents/DocumentsOf.tsx';
import '../inspection/inspection.css';
import { onSeason, type Ready } from '../ready.tsx';
import { RecordForm } from '../RecordForm.tsx';
import { Correct } from '../register/Correct.tsx';
import { LotBalance } from './LotBalance.tsx';
import { lotWords } from './words.ts';

/** One lot: what is left and what became of the rest, its approvals, counting, holding, recalling. */
export default onSeason(function LotPage({ local }) {
  const w = useWordsOf(lotWords);
  const { lotId = '' } = useParams<{ lotId: string }>();
  const lot = local.season.lot(lotId);
  if (lot === undefined) {
    return (
      <section className="page">
        <h1>{w.notHere}</h1>
      </section>
    );
  }
  return <OneLot local={local} lot={lot} />;
});

function OneLot({ local, lot }: { readonly local: Ready; readonly lot: Lot }) {
  const w = useWordsOf(lotWords);
  const { w: tank, language } = useTankWords();
  const now = useNow();
  const { engine, season } = local;
  const material = season.material(lot.materialId);
  const unit = season.unitOfLot(lot.id) ?? lot.quantity.unit;
  const left = leftOf(lot);
  const trouble = troubleOf(season, lot, engine.domain.dateOn(now, season.timeZone), tank);
  const notes = [...lot.holds, ...lot.recalls].toSorted((a, b) => a.at.at - b.at.at);
  return (
    <section className="page">
      <header className="row spread">
        <h1>
          {lot.code} <span className="faint">{material?.registered.name ?? ''}</span>
        </h1>
        <Link href={`/trace/lot/${lot.id}`} className="button quiet no-print">
          {w.trace}
        </Link>
      </header>
      <section className="card" aria-label={lot.code}>
        <dl className="facts">
          <Fact
            name={w.left}
            text={
              left === null
                ? '?'
                : `${roundText(Math.abs(left) < 1e-9 ? 0 : left, language, 4)} ${unitText(unit, language)}`
            }
          />
          <Fact
            name={w.received}
            text={`${quantityText(lot.quantity, language)} · ${dayText(lot.at.at, season.timeZone, language, now)}`}
          />
          <Fact
            name={w.supplier}
            text={lot.origin.kind === 'received' ? lot.origin.record.data.supplierLot : w.ownCompost}
          />
          {lot.expiresOn !== undefined && <Fact name={w.expires} text={dateText(lot.expiresOn, language)} />}
          <Fact name={w.state} text={trouble === null ? w.usable : `✕ ${trouble}`} />
        </dl>
      </section>
      <section className="card" aria-labelledby="balance">
        <h2 id="balance">{w.balance}</h2>
        <LotBalance local={local} lot={lot} />
      </section>
      <section className="card" aria-labelledby="approvals">
        <h2 id="approvals">{w.approvals}</h2>
        <ul>
          {(material?.approvals ?? []).map(({ id, data }) => (
            <li key={id}>
              {w[`by_${data.by}`]} · {data.reference} · {w.period(data.from, data.until ?? '')}
            </li>
          ))}
          {(material?.withdrawals ?? []).map(({ id, data }) => (
            <li key={id}>
              ✕ {w.withdrawn}: {w[`by_${data.by}`]} · {data.reference} · {data.from}
            </li>
          ))}
        </ul>
        {(material?.approvals.length ?? 0) === 0 && <p className="faint">{w.noApprovals}</p>}
      </section>
      {notes.length > 0 && (
        <section className="card" aria-labelledby="notes">
          <h2 id="notes">{w.history}</h2>
          <ul>
            {notes.map((note) => (
              <li key={note.id}>
                {whenText(note.at.at, season.timeZone, language, now)} ·{' '}
                {note.type === 'lot.held' ? w.do_held : note.type === 'lot.released' ? w.do_released : w.do_recalled} ·{' '}
                {note.data.reason ?? ''}
              </li>
            ))}
          </ul>
        </section>
      )}
      <section className="card" aria-labelledby="verdicts">
        <h2 id="verdicts">{w.verdicts}</h2>
        <Verdicts engine={engine} outcomes={engine.rules.judgeThing(season, { kind: 'lot', id: lot.id }, now)} />
      </section>
      <details className="card no-print">
        <summary>{w.count}</summary>
        <CountForm local={local} lot={lot} unit={unit} />
      </details>
      <details className="card no-print">
        <summary>{w.hold}</summary>
        <HoldForm local={local} lot={lot} unit={unit} />
      </details>
      <DocumentsOf local={local} id={lot.id} />
      {lot.origin.kind === 'received' && <Correct local={local} recordId={lot.origin.record.id} />}
    </section>
  );
}

export function Fact({ name, text }: { readonly name: string; readonly text: string }) {
  return (
    <div className="fact">
      <dt>{name}</dt>
      <dd>{text}</dd>
    </div>
  );
}

interface FormProps {
  readonly local: Ready;
  readonly lot: Lot;
  readonly unit: string;
}

function CountForm({ local, lot, unit }: FormProps) {
  const w = useWordsOf(lotWords);
  const { language } = useTankWords();
  const [value, setValue] = useState('');
  return (
    <RecordForm
      local={local}
      facts={() => [{ type: 'lot.counted', data: { lotId: lot.id, quantity: { value: Number(value), unit } } }]}
      onDone={() => setValue('')}
    >
      <FigureEntry label={w.quantity(unitText(unit, language))} help={w.countHelp} value={value} onChange={setValue} />
    </RecordForm>
  );
}

type Deed = 'held' | 'released' | 'recalled' | 'disposed';
const isDeed = (text: string): text is Deed => ['held', 'released', 'recalled', 'disposed'].includes(text);

function HoldForm({ local, lot, unit }: FormProps) {
  const w = useWordsOf(lotWords);
  const { language } = useTankWords();
  const { values, set, done, begun } = useTypedTexts(['lot', lot.id, 'hold'], () => ({
    deed: 'held',
    reason: '',
    value: '',
  }));
  const { reason, value } = values;
  const deed: Deed = isDeed(values.deed) ? values.deed : 'held';
  return (
    <RecordForm
      local={local}
      facts={() => [
        {
          type: `lot.${deed}`,
          data: {
            ...{ lotId: lot.id, reason },
            ...(deed === 'disposed' ? { quantity: { value: Number(value), unit } } : {}),
          },
        },
      ]}
      begun={begun}
      onDone={() => done({ reason: '' })}
    >
      <SelectEntry
        label={w.what}
        value={deed}
        onChange={set('deed')}
        options={[
          ['held', w.do_held],
          ['released', w.do_released],
          ['recalled', w.do_recalled],
          ['disposed', w.do_disposed],
        ]}
      />
      {deed === 'disposed' && (
        <FigureEntry label={w.quantity(unitText(unit, language))} value={value} onChange={set('value')} />
      )}
      <TextEntry label={w.reason} value={reason} onChange={set('reason')} />
    </RecordForm>
  );
}
