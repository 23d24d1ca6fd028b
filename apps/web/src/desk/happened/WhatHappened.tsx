import type { CurrentRecord, Season } from '@furrowmark/domain';
import { useState } from 'react';
import { v7 } from 'uuid';
import { Unfold } from '../../app/Unfold.tsx';
import { fromLocal } from '../../clock/local.ts';
import { dayText, whenText } from '../../clock/text.ts';
import { materialName } from '../../lots/materialName.ts';
import { quantityText } from '../../quantity/text.ts';
import type { LocalSeason } from '../../season/local.ts';
import { settings } from '../../session/settings.ts';
import { useMayRecord } from '../../session/useMayRecord.ts';
import { useExternal } from '../../store/external.ts';
import { useWordsOf } from '../../words/useWords.ts';
import type { Language } from '../../words/catalogue.ts';
import '../desk.css';
import { SelectEntry, TextEntry } from '../Entry.tsx';
import { RecordForm, type Fact } from '../RecordForm.tsx';
import { dataOf, drafted } from '../register/draft.ts';
import { Fields, type ThingsOf } from '../register/Fields.tsx';
import type { Member } from '../register/members.ts';
import { doubtOf } from './doubt.ts';
import { happenings, type Happening, type Subject } from './happenings.ts';
import { happenedName, happenedWhy, happenedWords } from './words.ts';

type Local = Pick<LocalSeason, 'engine' | 'season'>;

interface Props {
  readonly local: Local;
  readonly of: Subject;
  /** The members that say of which thing: `{ vesselId }`. */
  readonly about: Readonly<Record<string, unknown>>;
  /** What it is called, where the page has several of these. */
  readonly name?: string;
  readonly onDone?: () => void;
}

/** What happened with a thing: it was cleaned, tested, calibrated, harvested from. By whoever was there, at the desk or beside it. */
export function WhatHappened(props: Props) {
  const w = useWordsOf(happenedWords);
  const mayRecord = useMayRecord();
  if (!mayRecord) return null;
  return (
    <Unfold className="card no-print" summary={props.name ?? w.title}>
      {() => <HappenedForm {...props} />}
    </Unfold>
  );
}

function HappenedForm(props: Props) {
  const w = useWordsOf(happenedWords);
  const { language } = useExternal(settings);
  const kinds = happenings[props.of];
  const [type, setType] = useState(kinds[0]?.type);
  const happening = kinds.find((each) => each.type === type);
  return (
    <div className="stack">
      {kinds.length > 1 && (
        <SelectEntry
          label={w.what}
          value={type ?? ''}
          onChange={(to) => setType(kinds.find((each) => each.type === to)?.type)}
          options={kinds.map((each) => [each.type, happenedName(each.type, language)] as const)}
        />
      )}
      {happening !== undefined && <OneForm key={happening.type} {...props} happening={happening} />}
    </div>
  );
}

function OneForm({ local, of, about, happening, onDone }: Props & { readonly happening: Happening }) {
  const w = useWordsOf(happenedWords);
  const { language } = useExternal(settings);
  const { season } = local;
  const { type, members } = happening;
  const [form, setForm] = useState(() => drafted(members, {}));
  const [when, setWhen] = useState('');
  const why = happenedWhy(type, language);
  const facts = (): readonly Fact[] | null => {
    const at = when === '' ? undefined : fromLocal(when, season.timeZone);
    if (at === null) return null;
    const written = inZone(members, dataOf(members, form, {}), local);
    const data = (happening.shape ?? ((each) => each))(written);
    const begun = happening.begins === undefined ? {} : { [happening.begins]: v7() };
    return [{ type, data: { ...(happening.alone === true ? {} : about), ...begun, ...data }, at }];
  };
  return (
    <RecordForm
      local={local}
      alsoBy={['reviewer', 'recorder']}
      facts={facts}
      doubt={([fact]) => {
        const found = fact === undefined ? null : doubtOf(fact, about, local);
        return found === null ? null : w[found];
      }}
      onDone={() => {
        setForm(drafted(members, {}));
        onDone?.();
      }}
    >
      {why !== null && <p className="faint">{why}</p>}
      <Fields members={members} form={form} onChange={setForm} things={thingsOf(local, of, about, language)} />
      <TextEntry label={w.when} help={w.whenHelp} type="datetime-local" optional value={when} onChange={setWhen} />
    </RecordForm>
  );
}

/** Moments as records have them: with the offset of the farm's clock then. */
function inZone(
  members: readonly Member[],
  data: Readonly<Record<string, unknown>>,
  { engine, season }: Local,
): Readonly<Record<string, unknown>> {
  const moments = members.filter(({ control }) => control.kind === 'moment').map(({ name }) => name);
  return Object.fromEntries(
    Object.entries(data).map(([name, value]) => {
      const at = moments.includes(name) && typeof value === 'string' ? fromLocal(value, season.timeZone) : null;
      return [name, at === null ? value : engine.domain.zonedText(at, season.timeZone)];
    }),
  );
}

/** What there is to pick from. */
const thingsOf =
  (local: Local, of: Subject, about: Readonly<Record<string, unknown>>, language: Language): ThingsOf =>
  (kind) => {
    const { season } = local;
    const named = (materialId: string): string => materialName(local, materialId, Date.now());
    const zone = season.timeZone;
    const ground = of === 'field' ? season.sameGround(String(about['fieldId'])) : new Set<string>();
    const lotName = ({ code, materialId }: { readonly code: string; readonly materialId: string }): string =>
      [code, named(materialId)].filter((part) => part !== '').join(' · ');
    const batch = of === 'batch' ? season.batch(String(about['batchId'])) : undefined;
    switch (kind) {
      case 'planting':
        return season
          .plantings()
          .filter(({ started }) => ground.has(started.data.fieldId))
          .toReversed()
          .map(({ id, started }) => [id, `${started.data.crop} · ${dayText(started.at.at, zone, language)}`]);
      case 'harvest':
        return season
          .harvests()
          .filter(({ fieldId }) => ground.has(fieldId))
          .toReversed()
          .map(({ id, code, at }) => [id, `${code} · ${dayText(at.at, zone, language)}`]);
      case 'lot':
        return season.lots().map((lot) => [lot.id, lotName(lot)]);
      case 'cleaner':
        return season
          .lots()
          .filter(({ materialId }) => season.material(materialId)?.registered.kind === 'sanitizer')
          .map((lot) => [lot.id, lotName(lot)]);
      case 'material':
        return season.materials().map(({ id }) => [id, named(id)]);
      case 'place':
        return [
          ...season.fields().map(({ id, registered }) => [id, registered.code] as const),
          ...season.materials().map(({ id }) => [id, named(id)] as const),
        ];
      case 'sample':
        return (batch?.samples ?? []).flatMap(({ type, at, data }) =>
          type === 'batch.sampled' && 'takenFrom' in data
            ? [[data.sampleId, `${data.takenFrom} · ${whenText(at.at, zone, language, Date.now())}`] as const]
            : [],
        );
      case 'load':
        // One that stands only inside an application goes by its subject id.
        return (batch?.draws ?? []).toReversed().map(({ id, quantity, at, applicationId }) => {
          const applied = applicationId === null ? undefined : season.application(applicationId)?.code;
          return [
            id,
            `${quantityText(quantity, language)} · ${whenText(at.at, zone, language, Date.now())}${
              applied === undefined ? '' : ` · ${applied}`
            }`,
          ];
        });
      case 'batch':
        return otherBatches(season, batch?.id).map(({ at, data }) => [
          data.batchId,
          [data.code, season.vessel(data.vesselId)?.registered.code ?? '', dayText(at.at, zone, language)]
            .filter((part) => part !== '')
            .join(' · '),
        ]);
    }
  };

/** Every batch but this one, those that are not closed first, then the newest first. Told without folding one of them. */
function otherBatches(season: Season, but: string | undefined): readonly CurrentRecord<'batch.opened'>[] {
  const opened = new Map<string, CurrentRecord<'batch.opened'>>();
  for (const each of season.ofType('batch.opened')) if (each.data.batchId !== but) opened.set(each.data.batchId, each);
  const closed = new Set<string>(season.ofType('batch.closed').map(({ data }) => data.batchId));
  return [...opened.values()].sort(
    (a, b) => Number(closed.has(a.data.batchId)) - Number(closed.has(b.data.batchId)) || b.at.at - a.at.at,
  );
}
