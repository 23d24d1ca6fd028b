import type { Season } from '@furrowmark/domain';
import { useWordsOf } from '../../words/useWords.ts';
import { FigureEntry, SelectEntry, TextEntry } from '../Entry.tsx';
import type { Kind } from './preview.ts';
import { intakeWords } from './words.ts';

/** What the sender says about a file; empty texts are left out. */
export interface About {
  readonly dates: string;
  readonly decimal: string;
  readonly units: Readonly<Record<string, string>>;
  readonly on: string;
  readonly batchId: string;
  readonly instrumentId: string;
  readonly offset: string;
  readonly everyMinutes: string;
  readonly property: string;
  readonly landStatus: string;
}

export const nothingSaid: About = {
  ...{ dates: '', decimal: '.', units: {}, on: '', batchId: '', instrumentId: '', offset: '', everyMinutes: '' },
  ...{ property: '', landStatus: '' },
};

const filled = (members: Readonly<Record<string, unknown>>): object =>
  Object.fromEntries(Object.entries(members).filter(([, value]) => value !== '' && value !== undefined));

/** As the service takes it. */
export function requestOf(
  kind: Kind,
  text: string,
  columns: Readonly<Record<string, string | null>>,
  about: About,
): object {
  const { dates, decimal, units, on, batchId, instrumentId, offset, everyMinutes, property, landStatus } = about;
  if (kind === 'boundaries') return { as: kind, text, ...filled({ property, landStatus, on }) };
  return {
    ...{ as: kind, text, columns, decimal, units: filled(units) },
    ...filled({ dates, on }),
    ...(kind === 'readings'
      ? {
          origin: 'instrument',
          ...filled({ batchId, instrumentId, offset, everyMinutes: everyMinutes === '' ? '' : Number(everyMinutes) }),
        }
      : {}),
  };
}

/** Figures that may come without a unit, by kind of file. */
const figures: Readonly<Record<Kind, readonly string[]>> = {
  lots: ['quantity'],
  materials: [],
  fields: ['area'],
  plantings: [],
  people: [],
  readings: ['dissolvedOxygen', 'temperature'],
  boundaries: [],
};
const choices: Readonly<Record<string, readonly string[]>> = {
  quantity: ['lb', 'kg', 'oz', 'gal', 'L', 'yd3'],
  area: ['acres', 'ha', 'ft2', 'm2'],
  dissolvedOxygen: ['mg/L', 'ppm'],
  temperature: ['F', 'C'],
};

interface Props {
  readonly season: Season;
  readonly kind: Kind;
  readonly about: About;
  readonly header: readonly string[];
  readonly onChange: (about: About) => void;
}

/** What a file does not say of itself: the order of its dates, its units, the batch of its readings, the name of its fields. */
export function Said({ season, kind, about, header, onChange }: Props) {
  const w = useWordsOf(intakeWords);
  const set = (changes: Partial<About>): void => onChange({ ...about, ...changes });
  const none = ['', w.notSaid] as const;
  const units = figures[kind].map((figure) => (
    <SelectEntry
      key={figure}
      label={w.unitOf(figure)}
      optional
      value={about.units[figure] ?? ''}
      onChange={(unit) => set({ units: { ...about.units, [figure]: unit } })}
      options={[['', w.unitInFile], ...(choices[figure] ?? []).map((unit) => [unit, unit] as const)]}
    />
  ));
  if (kind === 'boundaries') {
    return (
      <div className="two">
        <SelectEntry
          label={w.property}
          optional
          value={about.property}
          onChange={(property) => set({ property })}
          options={[none, ...header.map((each) => [each, each] as const)]}
        />
        <SelectEntry
          label={w.landOfNew}
          help={w.landHelp}
          optional
          value={about.landStatus}
          onChange={(landStatus) => set({ landStatus })}
          options={[
            ['', w.onlyKnown],
            ['organic', w.organic],
            ['transition', w.transition],
            ['conventional', w.conventional],
          ]}
        />
      </div>
    );
  }
  return (
    <div className="two">
      {kind === 'readings' && (
        <>
          <SelectEntry
            label={w.batch}
            value={about.batchId}
            onChange={(batchId) => set({ batchId })}
            options={[
              none,
              ...season
                .batches()
                .toReversed()
                .map(({ id, code }) => [id, code] as const),
            ]}
          />
          <SelectEntry
            label={w.instrument}
            optional
            value={about.instrumentId}
            onChange={(instrumentId) => set({ instrumentId })}
            options={[
              none,
              ...season
                .instruments()
                .filter(({ registered }) => registered.measures.includes('dissolvedOxygen'))
                .map(({ id, registered }) => [id, registered.code] as const),
            ]}
          />
        </>
      )}
      {units}
      <SelectEntry
        label={w.dates}
        optional
        value={about.dates}
        onChange={(dates) => set({ dates })}
        options={[
          ['', w.datesClear],
          ['mdy', w.mdy],
          ['dmy', w.dmy],
          ['ymd', w.ymd],
        ]}
      />
      <SelectEntry
        label={w.decimal}
        value={about.decimal}
        onChange={(decimal) => set({ decimal })}
        options={[
          ['.', '7.4'],
          [',', '7,4'],
        ]}
      />
      {kind === 'readings' ? (
        <>
          <SelectEntry
            label={w.loggerClock}
            help={w.loggerClockHelp}
            optional
            value={about.offset}
            onChange={(offset) => set({ offset })}
            options={[
              ['', w.clockOfFarm],
              ...['-04:00', '-05:00', '-06:00', '-07:00', '-08:00', '-09:00', '-10:00', '+00:00'].map(
                (each) => [each, `UTC${each}`] as const,
              ),
            ]}
          />
          <FigureEntry
            label={w.everyMinutes}
            help={w.everyHelp}
            optional
            value={about.everyMinutes}
            onChange={(everyMinutes) => set({ everyMinutes })}
          />
        </>
      ) : (
        <TextEntry label={w.on} help={w.onHelp} type="date" optional value={about.on} onChange={(on) => set({ on })} />
      )}
    </div>
  );
}
