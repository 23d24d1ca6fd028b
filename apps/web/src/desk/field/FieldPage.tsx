import type { Field } from '@furrowmark/domain';
import { Link, useParams } from 'wouter';
import { dayText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { quantityText } from '../../quantity/text.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { Verdicts } from '../../verdict/Verdicts.tsx';
import { useWordsOf } from '../../words/useWords.ts';
import { FileButton } from '../FileButton.tsx';
import { onSeason, type Ready } from '../ready.tsx';
import { DocumentsOf } from '../documents/DocumentsOf.tsx';
import { WhatHappened } from '../happened/WhatHappened.tsx';
import { Correct } from '../register/Correct.tsx';
import { earliestHarvest } from './earliestHarvest.ts';
import { groundEvents, lastTea } from './ground.ts';
import { fieldWords } from './words.ts';

/** One piece of ground: what happened there, and how many days have to pass before it is harvested. */
export default onSeason(function FieldPage({ local }) {
  const w = useWordsOf(fieldWords);
  const { fieldId = '' } = useParams<{ fieldId: string }>();
  const field = local.season.field(fieldId);
  if (field === undefined) {
    return (
      <section className="page">
        <h1>{w.notHere}</h1>
      </section>
    );
  }
  return <OneField local={local} field={field} />;
});

function OneField({ local, field }: { readonly local: Ready; readonly field: Field }) {
  const w = useWordsOf(fieldWords);
  const { language } = useExternal(settings);
  const now = useNow();
  const { engine, season } = local;
  const { code, kind, area, landStatus, buffer } = engine.domain.asOf(field, now);
  const events = groundEvents(season, field.id);
  const ids = (of: string): readonly string[] => [
    ...new Set(events.filter((each) => each.kind === of).map(({ id }) => id)),
  ];
  const outcomes = [
    ...engine.rules.judgeThing(season, { kind: 'field', id: field.id }, now),
    ...ids('harvested').flatMap((id) => engine.rules.judgeThing(season, { kind: 'harvest', id }, now)),
    ...ids('applied').flatMap((id) => engine.rules.judgeThing(season, { kind: 'application', id }, now)),
  ];
  const zone = season.timeZone;
  return (
    <section className="page">
      <header className="row spread">
        <h1>
          {code}{' '}
          <span className="faint">
            {[
              w[`kind_${kind}`],
              area === undefined ? '' : quantityText(area, language),
              w[`land_${landStatus}`],
              buffer ?? '',
            ]
              .filter((part) => part !== '')
              .join(' · ')}
          </span>
        </h1>
        <div className="row no-print">
          <FileButton report={`field-history.pdf?field=${field.id}`} name={`${code}.pdf`} label="PDF" />
          <Link href={`/trace/field/${field.id}`} className="button quiet">
            {w.trace}
          </Link>
        </div>
      </header>
      <section className="card" aria-labelledby="days">
        <h2 id="days">{w.days}</h2>
        <HarvestAhead local={local} fieldId={field.id} now={now} />
        <p className="faint small">{w.daysNote}</p>
        <Verdicts engine={engine} outcomes={outcomes} />
      </section>
      <section className="card" aria-labelledby="history">
        <h2 id="history">{w.history}</h2>
        {events.length === 0 && <p className="faint">{w.nothing}</p>}
        <table>
          <thead className="unseen">
            <tr>
              <th scope="col">{w.date}</th>
              <th scope="col">{w.what}</th>
            </tr>
          </thead>
          <tbody>
            {events.toReversed().map((event) => {
              const tea = event.kind === 'harvested' ? lastTea(events, event.at) : null;
              const text = w[event.kind](event.what);
              return (
                <tr key={event.kind + event.id}>
                  <td>{dayText(event.at, zone, language, now)}</td>
                  <td>
                    {event.batchId === undefined ? (
                      text
                    ) : (
                      <Link href={`/batch/${event.batchId}`} className="row-link">
                        {text}
                      </Link>
                    )}
                    {tea !== null && (
                      <span className="faint"> · {w.daysAfter(Math.floor((event.at - tea) / 86_400_000))}</span>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
      <WhatHappened local={local} of="field" about={{ fieldId: field.id }} />
      <DocumentsOf local={local} id={field.id} />
      <Correct
        local={local}
        recordId={field.recordIds[field.rivals.length] ?? ''}
        now={engine.domain.asOf(field, now)}
      />
    </section>
  );
}

/** How long the ground still waits, ahead of any harvest. */
function HarvestAhead({
  local,
  fieldId,
  now,
}: {
  readonly local: Ready;
  readonly fieldId: string;
  readonly now: number;
}) {
  const w = useWordsOf(fieldWords);
  const { language } = useExternal(settings);
  const { engine, season } = local;
  const wait = earliestHarvest(engine, season, fieldId, now);
  const zone = season.timeZone;
  return (
    <>
      <p>
        {wait === null ? (
          w.harvestFree
        ) : (
          <strong>
            {w.harvestAhead(
              dayText(wait.at, zone, language, now),
              engine.domain.daysBetween(engine.domain.dateOn(now, zone), engine.domain.dateOn(wait.at, zone)),
              wait.after,
            )}
          </strong>
        )}
      </p>
      <p className="faint small">{w.harvestCaution}</p>
    </>
  );
}
