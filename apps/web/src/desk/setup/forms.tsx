import { useState } from 'react';
import { v7 } from 'uuid';
import { personName } from '../../records/person.ts';
import { remember } from '../../session/settings.ts';
import { useTypedTexts } from '../../tank/useTyped.ts';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import type { Ready } from '../ready.tsx';
import { RecordForm, type Fact } from '../RecordForm.tsx';
import { useDoubt } from '../register/useDoubt.ts';
import { massesAndVolumes, volumes } from '../units.ts';
import { setupWords } from './words.ts';

interface Props {
  readonly local: Ready;
  readonly onDone: () => void;
}

/** Somebody who writes or does things. The first one is who sits here. */
export function PersonForm({ local, onDone }: Props) {
  const w = useWordsOf(setupWords);
  const [name, setName] = useState('');
  const [initials, setInitials] = useState('');
  const [language, setLanguage] = useState('en');
  return (
    <RecordForm
      local={local}
      alsoBy={[]}
      facts={() => {
        const personId = v7();
        if (local.season.people().length === 0) remember({ who: personId });
        const personal = { name, ...(initials === '' ? {} : { initials }) };
        return [{ type: 'person.registered', data: { personId, personal, language } }];
      }}
      onDone={onDone}
    >
      <TextEntry label={w.personName} help={w.personHelp} value={name} onChange={setName} autoComplete="name" />
      <TextEntry label={w.initials} value={initials} onChange={setInitials} optional />
      <SelectEntry
        label={w.reads}
        value={language}
        onChange={setLanguage}
        options={[
          ['en', 'English'],
          ['es', 'Español'],
        ]}
      />
    </RecordForm>
  );
}

/** Where the water comes from. */
export function SourceForm({ local, onDone }: Props) {
  const w = useWordsOf(setupWords);
  const [code, setCode] = useState('');
  const [kind, setKind] = useState('municipal');
  const [disinfectant, setDisinfectant] = useState('unknown');
  return (
    <RecordForm
      local={local}
      alsoBy={[]}
      facts={() => [{ type: 'source.registered', data: { sourceId: v7(), code, kind, disinfectant } }]}
      onDone={onDone}
    >
      <TextEntry label={w.code} value={code} onChange={setCode} />
      <SelectEntry
        label={w.sourceKind}
        value={kind}
        onChange={setKind}
        options={(['municipal', 'well', 'surface', 'rain', 'hauled'] as const).map(
          (each) => [each, w[`k_${each}`]] as const,
        )}
      />
      <SelectEntry
        label={w.disinfectant}
        help={w.disinfectantHelp}
        value={disinfectant}
        onChange={setDisinfectant}
        options={(['unknown', 'none', 'chlorine', 'chloramine'] as const).map(
          (each) => [each, w[`d_${each}`]] as const,
        )}
      />
    </RecordForm>
  );
}

/** In place of a volume: none was written. */
const follows = '=';

/** What the tea is brewed in. The working volume follows the whole one until somebody writes another. */
export function VesselForm({ local, onDone }: Props) {
  const w = useWordsOf(setupWords);
  const { values, set, done, begun } = useTypedTexts(['set-up', 'vessel'], () => ({
    ...{ code: '', total: '', unit: '[gal_us]', previousContents: 'none' },
    // Written by nobody yet: it follows the whole volume.
    working: follows,
  }));
  const { code, total, unit, previousContents } = values;
  const doubt = useDoubt(local);
  const nineTenths = Math.round(Number(total) * 0.9);
  const usual = total === '' || Number.isNaN(nineTenths) ? '' : String(nineTenths);
  const working = values.working === follows ? usual : values.working;
  return (
    <RecordForm
      local={local}
      alsoBy={[]}
      facts={() => [
        {
          type: 'vessel.registered',
          data: {
            ...{ vesselId: v7(), code, previousContents },
            totalVolume: { value: Number(total), unit },
            workingVolume: { value: Number(working), unit },
          },
        },
      ]}
      doubt={doubt}
      begun={begun}
      onDone={() => {
        done();
        onDone();
      }}
    >
      <TextEntry label={w.code} value={code} onChange={set('code')} />
      <div className="with-unit">
        <FigureEntry label={w.total} value={total} onChange={set('total')} />
        <SelectEntry label={w.unit} value={unit} onChange={set('unit')} options={volumes} />
      </div>
      <FigureEntry label={w.working} help={w.workingHelp} value={working} onChange={set('working')} />
      <SelectEntry
        label={w.before}
        help={w.beforeHelp}
        value={previousContents}
        onChange={set('previousContents')}
        options={(['none', 'food', 'unknown', 'other'] as const).map((each) => [each, w[`b_${each}`]] as const)}
      />
    </RecordForm>
  );
}

const materialKinds = ['vermicompost', 'compost', 'nutrient', 'mineral', 'neutralizer', 'other'] as const;

/** A material, its approval where there is one, and the lot of it that is here. */
export function LotForm({ local, onDone }: Props) {
  const w = useWordsOf(setupWords);
  const { values, set, done, begun } = useTypedTexts(['set-up', 'lot'], () => ({
    ...{
      name: w.m_vermicompost,
      kind: 'vermicompost',
      animalOrigin: 'unknown',
      until: '',
      approvedFrom: '',
      reference: '',
    },
    ...{ code: '', supplierLot: '', value: '', unit: '[lb_av]', since: '' },
  }));
  const { name, kind, animalOrigin, until, approvedFrom, reference, code, supplierLot, value, unit, since } = values;
  const facts = (): readonly Fact[] => {
    const materialId = v7();
    const microbialFood = kind === 'nutrient' ? 'yes' : 'no';
    const today = local.engine.domain.dateOn(Date.now(), local.season.timeZone);
    return [
      {
        type: 'material.registered',
        data: { materialId, code: name, name, kind, animalOrigin, microbialFood },
      },
      ...(until === ''
        ? []
        : [
            {
              type: 'material.approved',
              data: {
                ...{ materialId, by: 'certifier', reference },
                ...{ from: approvedFrom === '' ? today : approvedFrom, until },
              },
            } as const,
          ]),
      {
        type: 'lot.received',
        data: { lotId: v7(), code, materialId, supplierLot, quantity: { value: Number(value), unit } },
        at: since === '' ? undefined : local.engine.domain.startOfDay(since, local.season.timeZone),
      },
    ];
  };
  return (
    <RecordForm
      local={local}
      alsoBy={[]}
      facts={facts}
      begun={begun}
      onDone={() => {
        done();
        onDone();
      }}
    >
      <TextEntry label={w.material} value={name} onChange={set('name')} />
      <SelectEntry
        label={w.materialKind}
        value={kind}
        onChange={set('kind')}
        options={materialKinds.map((each) => [each, w[`m_${each}`]] as const)}
      />
      <SelectEntry
        label={w.animal}
        help={w.animalHelp}
        value={animalOrigin}
        onChange={set('animalOrigin')}
        options={(['unknown', 'no', 'yes'] as const).map((each) => [each, w[each]] as const)}
      />
      <TextEntry
        label={w.approvedUntil}
        help={w.approvedHelp}
        type="date"
        value={until}
        onChange={set('until')}
        optional
      />
      {until !== '' && (
        <>
          <TextEntry
            label={w.approvedFrom}
            help={w.approvedFromHelp}
            type="date"
            value={approvedFrom}
            onChange={set('approvedFrom')}
            optional
          />
          <TextEntry label={w.approvalReference} value={reference} onChange={set('reference')} />
        </>
      )}
      <TextEntry label={w.lotCode} value={code} onChange={set('code')} />
      <TextEntry label={w.supplierLot} value={supplierLot} onChange={set('supplierLot')} optional />
      <div className="with-unit">
        <FigureEntry label={w.quantity} value={value} onChange={set('value')} />
        <SelectEntry label={w.unit} value={unit} onChange={set('unit')} options={massesAndVolumes} />
      </div>
      <TextEntry label={w.since} help={w.sinceHelp} type="date" value={since} onChange={set('since')} optional />
    </RecordForm>
  );
}

/** The rules to begin with. */
export function BookForm({ local, onDone }: Props) {
  const w = useWordsOf(setupWords);
  const { engine, season } = local;
  const people = season.people().filter(({ retired, erased }) => retired === undefined && erased === undefined);
  const [chosen, setChosen] = useState('');
  const [from, setFrom] = useState('');
  const approvedBy = chosen === '' ? (people[0]?.id ?? '') : chosen;
  return (
    <RecordForm
      local={local}
      alsoBy={[]}
      label={w.bookAdopt}
      facts={() => {
        const begins = from === '' ? Date.now() : engine.domain.startOfDay(from, season.timeZone);
        const effectiveFrom = engine.domain.zonedText(begins, season.timeZone);
        const entries = engine.rules.starterEntries();
        return [{ type: 'ruleBook.adopted', data: { effectiveFrom, entries, reason: w.bookReason, approvedBy } }];
      }}
      onDone={onDone}
    >
      <p>{w.bookText}</p>
      <p>
        <strong>{w.bookCare}</strong>
      </p>
      <TextEntry label={w.bookFrom} help={w.bookFromHelp} type="date" value={from} onChange={setFrom} optional />
      <p className="faint">{w.bookAll}</p>
      <SelectEntry
        label={w.bookApprove}
        value={approvedBy}
        onChange={setChosen}
        options={people.map((person) => [person.id, personName(engine, person)] as const)}
      />
    </RecordForm>
  );
}
