import { useState, type FormEvent } from 'react';
import { Link } from 'wouter';
import { fromLocal, localText } from '../../clock/local.ts';
import { ask } from '../../http/ask.ts';
import { roundText, unitText } from '../../quantity/text.ts';
import { session } from '../../session/session.ts';
import { settings } from '../../session/settings.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import '../inspection/inspection.css';
import { onSeason } from '../ready.tsx';
import { Several } from '../Several.tsx';
import { volumes, volumesPerArea } from '../units.ts';
import { deskWords } from '../words.ts';
import { planned, type Planned } from './planned.ts';
import { PlanStrip } from './PlanStrip.tsx';
import { planWords } from './words.ts';
import { WorkSheet } from './WorkSheet.tsx';
import { Told, toldHere } from '../../refusals/Told.tsx';

const day = 86_400_000;

/** Brews laid out backwards from the spray window, and the sheets to work from. */
export default onSeason(function PlanPage({ local }) {
  const w = useWordsOf(planWords);
  const desk = useWordsOf(deskWords);
  const { language } = useExternal(settings);
  const { engine, season } = local;
  const zone = season.timeZone;
  const first = Math.ceil(Date.now() / day) * day + 3 * day;
  const [from, setFrom] = useState(`${localText(first, zone).slice(0, 10)}T06:00`);
  const [to, setTo] = useState(`${localText(first, zone).slice(0, 10)}T11:00`);
  const [fields, setFields] = useState<readonly string[]>([]);
  const [vessels, setVessels] = useState<readonly string[]>([]);
  const [rate, setRate] = useState('20');
  const [unit, setUnit] = useState('[gal_us]/[acr_us]');
  const [tank, setTank] = useState('');
  const [perHour, setPerHour] = useState('');
  const [sprayerUnit, setSprayerUnit] = useState('[gal_us]');
  const recipes = [...new Map(season.recipes().map((each) => [each.data.recipeId, each.data])).values()];
  const [recipeId, setRecipe] = useState<string>(recipes[0]?.recipeId ?? '');
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState<string | null>(null);
  /** The proposal, and the window that it was laid out for. */
  const [plan, setPlan] = useState<
    (Planned & { readonly window: { readonly from: number; readonly to: number } }) | null
  >(null);
  const [a, b] = [fromLocal(from, zone), fromLocal(to, zone)];
  const lay = async (): Promise<void> => {
    if (a === null || b === null || fields.length === 0 || vessels.length === 0) {
      setSaid(w.choose);
      return;
    }
    setBusy(true);
    const { zonedText } = engine.domain;
    const answer = await ask(`/operations/${session.get()?.operationId ?? ''}/plan`, {
      method: 'POST',
      json: {
        spray: { from: zonedText(a, zone), to: zonedText(b, zone) },
        targets: fields.map((fieldId) => ({ fieldId, rate: { value: Number(rate), unit } })),
        vessels,
        ...(recipeId === '' ? {} : { recipeId }),
        sprayer: {
          ...(tank === '' ? {} : { tank: { value: Number(tank), unit: sprayerUnit } }),
          ...(perHour === '' ? {} : { perHour: { value: Number(perHour), unit: `${sprayerUnit}/h` } }),
        },
      },
    });
    setBusy(false);
    const read = answer.kind === 'ok' ? planned.safeParse(answer.body) : null;
    setPlan(read?.success === true ? { ...read.data, window: { from: a, to: b } } : null);
    setSaid(
      read?.success === true ? null : answer.kind === 'refused' ? await toldHere(answer.problem.detail) : w.noReception,
    );
  };
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    void lay();
  };
  const now = Date.now();
  const standing = season.fields().filter(({ retired }) => retired === undefined);
  const tanks = season.vessels().filter(({ retired }) => retired === undefined);
  // As the plan takes it: what all sources agree on.
  const disinfectants = new Set(season.sources().map((source) => engine.domain.asOf(source, now).disinfectant));
  const waterKnown = disinfectants.size === 1 && !disinfectants.has('unknown');
  const amount = (of: Planned['total']['needed']): string =>
    `${roundText(of.value, language, 4)} ${unitText(of.unit, language)}`;
  return (
    <section className="page">
      <h1>{w.title}</h1>
      <p className="faint no-print">{w.intro}</p>
      {(standing.length === 0 || tanks.length === 0) && <p>{w.needs}</p>}
      <form className="card no-print" onSubmit={submit}>
        <div className="two">
          <TextEntry label={w.from} type="datetime-local" value={from} onChange={setFrom} />
          <TextEntry label={w.until} type="datetime-local" value={to} onChange={setTo} />
        </div>
        <Several
          legend={w.fields}
          options={standing.map((field) => [field.id, engine.domain.asOf(field, now).code] as const)}
          chosen={fields}
          onChange={setFields}
        />
        <div className="with-unit">
          <FigureEntry label={w.rate} value={rate} onChange={setRate} />
          <SelectEntry label={w.unit} value={unit} onChange={setUnit} options={volumesPerArea} />
        </div>
        <div className="with-unit">
          <FigureEntry label={w.sprayerTank} help={w.sprayerWhy} optional value={tank} onChange={setTank} />
          <SelectEntry label={w.unit} value={sprayerUnit} onChange={setSprayerUnit} options={volumes} />
        </div>
        <FigureEntry label={w.perHour} help={w.perHourWhy} optional value={perHour} onChange={setPerHour} />
        <Several
          legend={w.tanks}
          options={tanks.map((vessel) => [vessel.id, engine.domain.asOf(vessel, now).code] as const)}
          chosen={vessels}
          onChange={setVessels}
        />
        <SelectEntry
          label={w.recipe}
          value={recipeId}
          onChange={setRecipe}
          optional
          options={[['', w.noRecipe], ...recipes.map((each) => [each.recipeId, each.code] as const)]}
        />
        <div className="row">
          <button type="submit" className="button" disabled={busy}>
            {busy ? w.working : w.make}
          </button>
          {said !== null && (
            <p role="alert" className="problem">
              {said}
            </p>
          )}
        </div>
      </form>
      {plan !== null && (
        <>
          <section className="card" aria-labelledby="strip">
            <header className="row spread">
              <h2 id="strip">{w.strip}</h2>
              <button type="button" className="button quiet" onClick={() => window.print()}>
                {desk.print}
              </button>
            </header>
            <p role="status">{w.total(amount(plan.total.planned), amount(plan.total.needed))}</p>
            {plan.batches.length > 0 && (
              <PlanStrip
                plan={plan}
                zone={zone}
                codeOf={(id) => season.vessel(id)?.registered.code ?? ''}
                window={plan.window}
              />
            )}
            {plan.warnings.length > 0 && (
              <>
                <h3>{w.warnings}</h3>
                <ul>
                  {plan.warnings.map((warning) => (
                    <li key={warning}>
                      ◐ <Told text={warning} />
                    </li>
                  ))}
                </ul>
                {!waterKnown && (
                  <p className="no-print">
                    {w.waterSaid} <Link href="/registers#source.registered">{w.toWater}</Link>
                  </p>
                )}
              </>
            )}
          </section>
          <div className="sheets">
            {plan.batches.map((brew, i) => (
              <WorkSheet key={brew.vesselId + String(i)} local={local} brew={brew} />
            ))}
          </div>
          <p className="faint">{w.caution}</p>
        </>
      )}
    </section>
  );
});
