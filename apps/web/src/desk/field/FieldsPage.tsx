import { Link } from 'wouter';
import { dayText } from '../../clock/text.ts';
import { useNow } from '../../clock/useNow.ts';
import { quantityText } from '../../quantity/text.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { onSeason } from '../ready.tsx';
import { earliestHarvest } from './earliestHarvest.ts';
import { groundEvents, lastTea } from './ground.ts';
import { MapPicture } from './MapPicture.tsx';
import { RegisterForm } from './RegisterForm.tsx';
import { fieldWords } from './words.ts';

/** The fields, as a map and as a table. */
export default onSeason(function FieldsPage({ local }) {
  const w = useWordsOf(fieldWords);
  const { language } = useExternal(settings);
  const now = useNow();
  const { engine, season } = local;
  const fields = season.fields().toSorted((a, b) => a.registered.code.localeCompare(b.registered.code));
  return (
    <section className="page">
      <h1>{w.title}</h1>
      <section className="card" aria-labelledby="map">
        <h2 id="map">{w.map}</h2>
        <p className="faint small">{w.mapSays}</p>
        <MapPicture local={local} now={now} />
      </section>
      <div className="card">
        {fields.length === 0 ? (
          <p>{w.noneYet}</p>
        ) : (
          <div className="table-wrap" tabIndex={0} role="region" aria-label={w.title}>
            <table>
              <thead>
                <tr>
                  <th scope="col">{w.field}</th>
                  <th scope="col">{w.kind}</th>
                  <th scope="col" className="number">
                    {w.area}
                  </th>
                  <th scope="col">{w.status}</th>
                  <th scope="col">{w.crops}</th>
                  <th scope="col">{w.last}</th>
                  <th scope="col">{w.harvestFrom}</th>
                </tr>
              </thead>
              <tbody>
                {fields.map((field) => {
                  const { code, kind, area, landStatus } = engine.domain.asOf(field, now);
                  const tea = lastTea(groundEvents(season, field.id), now);
                  const wait = earliestHarvest(engine, season, field.id, now);
                  const crops = season
                    .plantings()
                    .filter(
                      ({ started, standsFrom, standsUntil }) =>
                        started.data.fieldId === field.id &&
                        standsFrom <= now &&
                        (standsUntil === null || standsUntil > now),
                    )
                    .map(({ started }) => started.data.crop);
                  return (
                    <tr key={field.id}>
                      <th scope="row">
                        <Link href={`/field/${field.id}`} className="row-link">
                          {code}
                        </Link>
                      </th>
                      <td>{w[`kind_${kind}`]}</td>
                      <td className="number">{area === undefined ? '' : quantityText(area, language)}</td>
                      <td>{w[`land_${landStatus}`]}</td>
                      <td>{crops.join(', ')}</td>
                      <td className="day">
                        {tea === null ? (
                          <span className="faint">{w.never}</span>
                        ) : (
                          <>
                            {dayText(tea, season.timeZone, language, now)}
                            <br />
                            {w.daysAgo(Math.floor((now - tea) / 86_400_000))}
                          </>
                        )}
                      </td>
                      <td className="day">
                        {wait === null ? (
                          <span className="faint">{w.noWait}</span>
                        ) : (
                          dayText(wait.at, season.timeZone, language, now)
                        )}
                      </td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </div>
        )}
      </div>
      <details className="card no-print">
        <summary>{w.register}</summary>
        <RegisterForm local={local} />
      </details>
    </section>
  );
});
