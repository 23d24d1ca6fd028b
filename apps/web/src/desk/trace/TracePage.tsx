import { useState } from 'react';
import { Link, useLocation, useParams } from 'wouter';
import { Choice } from '../../app/Choice.tsx';
import { useWordsOf } from '../../words/useWords.ts';
import { FileButton } from '../FileButton.tsx';
import { PickThing } from '../PickThing.tsx';
import { pageOf } from '../place.ts';
import { onSeason, type Ready } from '../ready.tsx';
import { isTraceable, things, type Thing } from '../things.ts';
import { deskWords } from '../words.ts';
import { HarvestBalance } from './HarvestBalance.tsx';
import { RecallSheet } from './RecallSheet.tsx';
import { TraceView } from './TraceView.tsx';
import { traceWords } from './words.ts';
import './trace.css';

/** The report that has the same on paper. */
export function reportOf({ kind, id }: Pick<Thing, 'kind' | 'id'>, direction: 'forward' | 'backward'): string {
  if (kind === 'lot') return `lot-trace.pdf?lot=${id}&direction=${direction}`;
  if (kind === 'batch') return `batch-record.pdf?batch=${id}`;
  return kind === 'field' ? `field-history.pdf?field=${id}` : `harvest-applications.pdf?harvest=${id}`;
}

/** Any lot, batch, field or harvest, both ways. */
export default onSeason(function TracePage({ local }) {
  const w = useWordsOf(traceWords);
  const { kind = '', id = '' } = useParams<{ kind?: string; id?: string }>();
  const [, go] = useLocation();
  if (!isTraceable(kind)) {
    return (
      <section className="page">
        <h1>{w.title}</h1>
        <PickThing season={local.season} onPick={(thing) => go(`/trace/${thing.kind}/${thing.id}`)} />
      </section>
    );
  }
  return <OneTrace key={kind + id} local={local} kind={kind} id={id} />;
});

function OneTrace({ local, kind, id }: { readonly local: Ready; readonly kind: Thing['kind']; readonly id: string }) {
  const w = useWordsOf(traceWords);
  const desk = useWordsOf(deskWords);
  const thing = things(local.season).find((each) => each.kind === kind && each.id === id);
  const [direction, setDirection] = useState<'forward' | 'backward'>(
    kind === 'harvest' || kind === 'field' ? 'backward' : 'forward',
  );
  const [exercise, setExercise] = useState(false);
  const lot = kind === 'lot' ? local.season.lot(id) : undefined;
  const harvest = kind === 'harvest' ? local.season.harvest(id) : undefined;
  const page = pageOf(kind, id);
  return (
    <section className="page">
      <header className="row spread">
        <h1>
          {w.title} · {desk[`kind_${kind}`]} {thing?.code ?? ''} <span className="faint">{thing?.detail}</span>
        </h1>
        <div className="row no-print">
          {page !== null && kind !== 'harvest' && (
            <Link href={page} className="button quiet">
              {w.open(thing?.code ?? '')}
            </Link>
          )}
          <FileButton report={reportOf({ kind, id }, direction)} name={`${thing?.code ?? kind}.pdf`} label={w.pdf} />
          {lot !== undefined && lot.recalls.length === 0 && (
            <button
              type="button"
              className="button quiet"
              aria-pressed={exercise}
              onClick={() => setExercise(!exercise)}
            >
              {w.exercise}
            </button>
          )}
          <Link href="/trace" className="button quiet">
            {w.another}
          </Link>
        </div>
      </header>
      {lot !== undefined && (lot.recalls.length > 0 || exercise) && <RecallSheet local={local} lot={lot} />}
      <div className="no-print">
        <Choice
          legend={w.direction}
          options={[
            ['forward', w.forward],
            ['backward', w.backward],
          ]}
          value={direction}
          onChange={setDirection}
        />
      </div>
      <TraceView key={direction} local={local} root={{ kind, id }} direction={direction} />
      {harvest !== undefined && <HarvestBalance local={local} harvest={harvest} />}
    </section>
  );
}
