import type { Batch, Season, Vessel } from '@furrowmark/domain';
import { v7 } from 'uuid';
import { useState } from 'react';
import { Link, useLocation, useParams } from 'wouter';
import { Choice } from '../app/Choice.tsx';
import { EmptyPage } from '../app/EmptyPage.tsx';
import { NoTankYet } from '../app/NoTankYet.tsx';
import { useNow } from '../clock/useNow.ts';
import { BegunNote } from '../desk/BegunNote.tsx';
import { textOf } from '../http/read.ts';
import { quantityText } from '../quantity/text.ts';
import { whoHere } from '../records/person.ts';
import { useSeason, type SeasonState } from '../season/useSeason.ts';
import { AmountField } from './AmountField.tsx';
import { quantityOf, type Answer } from './forms/index.ts';
import { volumeUnits } from './forms/options.ts';
import { nextCode } from './nextCode.ts';
import './tank.css';
import { useTankWords } from './useTank.ts';
import { useTyped } from './useTyped.ts';
import { keep, recordOf } from './write.ts';
import { toldHere } from '../refusals/Told.tsx';

type Ready = Extract<SeasonState, { kind: 'ready' }>;

/** A new batch: the same as the last one with one touch, or chosen piece by piece. */
export default function StartPage() {
  const { vesselId } = useParams<{ vesselId?: string }>();
  const state = useSeason();
  return state.kind === 'ready' ? (
    <Start key={vesselId} local={state} vesselId={vesselId} />
  ) : (
    <EmptyPage kind={state.kind} />
  );
}

function Start({ local, vesselId }: { readonly local: Ready; readonly vesselId: string | undefined }) {
  const { w, language } = useTankWords();
  const { engine, season } = local;
  const now = useNow();
  const [, go] = useLocation();
  const vessels = season.vessels().filter(({ retired }) => retired === undefined || retired.at > now);
  // A tank with tea in it is chosen by a person only.
  const free = vesselId ?? vessels.find(({ id }) => runningIn(season, id) === undefined)?.id ?? '';
  const { values, set, done, begun } = useTyped(
    ['start', vesselId ?? ''],
    (): Beginning => begin(season, free),
    beginAgain,
  );
  const { recipeId, code } = values;
  // One that was chosen yesterday may have been given up since.
  const tank = vessels.find(({ id }) => id === values.tank)?.id ?? '';
  const planned = values.planned ?? usualVolume(local, tank, now);
  const running = runningIn(season, tank);
  const last = tank === '' ? [] : lastBatches(season, tank);
  const recipes = newestRecipes(season);
  const [problem, setProblem] = useState<string | null>(null);

  const open = async (like: Batch | null): Promise<void> => {
    const batchId = v7();
    const recipe = like?.recipeId ?? (recipeId === '' ? null : recipeId);
    const kind = like?.kind ?? recipes.find(({ data }) => data.recipeId === recipe)?.data.kind ?? 'aeratedTea';
    const first = like?.fills[0];
    const plannedVolume = first?.quantity ?? quantityOf(planned);
    const opened = {
      batchId,
      code: like === null ? code : nextCode(season),
      kind,
      vesselId: tank,
      ...(recipe === null ? {} : { recipeId: recipe }),
    };
    const at = Date.now();
    const performedBy = whoHere(season) ?? undefined;
    const records = [
      recordOf(local, {
        type: 'batch.opened',
        data: { ...opened, ...(plannedVolume === undefined ? {} : { plannedVolume }) },
        at,
        performedBy,
      }),
      ...(first === undefined
        ? []
        : [
            recordOf(local, {
              type: 'batch.filled',
              data: { batchId, sourceId: first.sourceId, volume: first.quantity },
              at,
              performedBy,
            }),
          ]),
    ];
    const failed = await keep(local, records);
    if (failed === null) {
      done();
      go(`/tank/${batchId}`);
    } else setProblem(await toldHere(failed.detail));
  };

  const [latest] = last;
  if (vessels.length === 0)
    return (
      <section className="page narrow">
        <h1>{w.startTitle}</h1>
        <NoTankYet />
      </section>
    );
  const source = latest?.fills[0] === undefined ? undefined : season.source(latest.fills[0].sourceId);
  return (
    <section className="page narrow">
      <h1>{w.startTitle}</h1>
      {begun !== null && <BegunNote begun={begun} zone={season.timeZone} />}
      <Choice
        legend={w.f_vessel}
        options={vessels.map((vessel) => [vessel.id, vesselText(local, vessel, now, w.tankInUse)] as const)}
        value={tank}
        onChange={set('tank')}
      />
      {tank === '' && <p role="status">{w.pickMissing(w.f_vessel)}</p>}
      {running !== undefined && (
        <p role="status" className="caution-note">
          <strong>{w.cautionTitle}.</strong> {w.stillInIt(running.code)}{' '}
          <Link href={`/tank/${running.id}/record/close`}>{w.do_close}</Link>
        </p>
      )}
      {latest?.fills[0] !== undefined && (
        <div className="card">
          <button type="button" className="next" onClick={() => void open(latest)}>
            <span className="next-do">{w.sameAs(latest.code)}</span>
            <span className="next-when">{recipeCode(season, latest)}</span>
          </button>
          <p className="faint small">
            {w.sameAsDoes(
              recipeCode(season, latest),
              quantityText(latest.fills[0].quantity, language),
              source === undefined ? '' : engine.domain.asOf(source, now).code,
            )}
          </p>
        </div>
      )}
      {recipes.length > 0 && (
        <Choice
          legend={w.f_recipe}
          options={recipes.map(({ data }) => [data.recipeId, data.code] as const)}
          value={recipeId}
          onChange={set('recipeId')}
        />
      )}
      <AmountField
        field={{ kind: 'amount', name: 'plannedVolume', label: w.f_volume, units: volumeUnits }}
        answer={planned}
        active
        onActivate={() => undefined}
        onChange={set('planned')}
      />
      <label className="stack tight">
        <span>{w.f_code}</span>
        <input type="text" value={code} required onChange={(event) => set('code')(event.target.value)} />
      </label>
      {problem !== null && (
        <p role="alert" className="problem">
          {problem}
        </p>
      )}
      <button
        type="button"
        className="button wide"
        disabled={tank === '' || code.trim() === ''}
        onClick={() => void open(null)}
      >
        {w.openOnly}
      </button>
    </section>
  );
}

/** What is written of a batch to be opened. */
type Beginning = Readonly<{
  tank: string;
  recipeId: string;
  code: string;
  /** null until somebody writes one: it is what the tank usually holds. */
  planned: Answer | null;
}>;

/** As the form guesses it: like the last batch of the tank. */
function begin(season: Season, tank: string): Beginning {
  const [last] = tank === '' ? [] : lastBatches(season, tank);
  return {
    tank,
    recipeId: last?.recipeId ?? newestRecipes(season)[0]?.data.recipeId ?? '',
    code: nextCode(season),
    planned: null,
  };
}

function beginAgain(first: Beginning, kept: object): Beginning {
  const planned: unknown = Reflect.get(kept, 'planned');
  const text = textOf(planned, 'text');
  return {
    tank: textOf(kept, 'tank') ?? first.tank,
    recipeId: textOf(kept, 'recipeId') ?? first.recipeId,
    code: textOf(kept, 'code') ?? first.code,
    planned: text === null ? first.planned : { kind: 'amount', text, unit: textOf(planned, 'unit') ?? volumeUnits[0] },
  };
}

const recipeCode = (season: Season, { recipeId }: Batch): string =>
  recipeId === null ? '' : (season.recipe(recipeId)?.data.code ?? '');

/** As much as went into the tank last, else its working volume: a guess, so that the first key replaces it. */
function usualVolume({ engine, season }: Ready, tank: string, now: number): Answer {
  const vessel = season.vessel(tank);
  const last = lastBatches(season, tank).find(({ vesselId }) => vesselId === tank)?.fills[0]?.quantity;
  const usual = last ?? (vessel === undefined ? undefined : engine.domain.asOf(vessel, now).workingVolume);
  return usual === undefined
    ? { kind: 'amount', text: '', unit: volumeUnits[0] }
    : { kind: 'amount', text: String(usual.value), unit: usual.unit, guess: true };
}

function vesselText({ engine, season }: Ready, vessel: Vessel, now: number, inUse: (code: string) => string): string {
  const { code } = engine.domain.asOf(vessel, now);
  const running = runningIn(season, vessel.id);
  return running === undefined ? code : `${code} (${inUse(running.code)})`;
}

/** The batches of a tank, the latest first; those of other tanks after them. */
function lastBatches(season: Season, vesselId: string): readonly Batch[] {
  const at = (batch: Batch): number => batch.opened?.at.at ?? 0;
  return season
    .batches()
    .filter(({ opened }) => opened !== null)
    .toSorted((a, b) => Number(b.vesselId === vesselId) - Number(a.vesselId === vesselId) || at(b) - at(a));
}

/** The newest edition of each recipe. */
function newestRecipes(season: Season) {
  const newest = new Map<string, ReturnType<Season['recipes']>[number]>();
  for (const recipe of season.recipes()) newest.set(recipe.data.recipeId, recipe);
  const retired = new Set<string>(season.ofType('recipe.retired').map(({ data }) => data.recipeId));
  return [...newest.values()].filter(({ data }) => !retired.has(data.recipeId));
}

const runningIn = (season: Season, vesselId: string): Batch | undefined =>
  season.batchesIn(vesselId).find(({ phase }) => phase !== 'closed' && phase !== 'reviewed');
