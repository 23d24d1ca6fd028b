import { asOf, dateOn, daysBetween, decimalIn, type Application, type Decimal } from '@furrowmark/domain';
import type { Block, Cell } from '../content.ts';
import {
  dayCell,
  inOwnVolume,
  lotName,
  nameOf,
  numberCell,
  personNameAndAddress,
  report,
  sumCell,
  tell,
  unitName,
  type Telling,
} from '../telling/index.ts';
import { defineReport } from './kind.ts';
import { isWithin, period, periodOf, type Period } from './parameters.ts';
import { texts } from './season-applications-words.ts';

type Target = Application['targets'][number];

/** Tea that one target got, litres: as written for it, else its share of what was drawn less the rests. null = not told. */
export function litresOn(telling: Telling, application: Application, target: Target): Decimal | null {
  const { season } = telling;
  const written = application.record.data.targets[application.targets.indexOf(target)]?.volume;
  if (written !== undefined) {
    const litres = decimalIn(written, 'L');
    if (litres !== null) return litres;
  }
  let sum: Decimal | null = null;
  for (const load of application.loads) {
    const draw = season.draw(load.drawSubjectId)?.draw;
    // A load sprayed in two goes cannot be told apart without volumes on its targets.
    if (load.litres === null || draw === undefined || draw.applicationIds.length > 1) return null;
    const rest = draw.ended.reduce<Decimal | null>(
      (total, each) => total?.minus(each.litres ?? 0) ?? null,
      load.litres,
    );
    sum = sum === null ? rest : sum.plus(rest ?? 0);
  }
  return sum?.times(target.share) ?? null;
}

/** Days from the application to the next harvest of the same ground; null while there is none. */
function daysToHarvest({ season, zone }: Telling, application: Application, target: Target): number | null {
  if (target.fieldId === undefined) return null;
  const ground = season.sameGround(target.fieldId);
  const next = season
    .harvests()
    .filter(({ fieldId, at }) => ground.has(fieldId) && at.at >= application.started.at)
    .filter(
      ({ plantingId }) =>
        plantingId === null || target.plantingIds.length === 0 || target.plantingIds.includes(plantingId),
    )
    .toSorted((a, b) => a.at.at - b.at.at)[0];
  return next === undefined ? null : daysBetween(dateOn(application.started.at, zone), dateOn(next.at.at, zone));
}

function lineOf(telling: Telling, application: Application, target: Target): Cell[] {
  const { season, words } = telling;
  const batches = [
    ...new Set(application.loads.map(({ batchId }) => (batchId === null ? '–' : nameOf(telling, batchId)))),
  ];
  const lots = new Set(
    application.loads.flatMap(
      ({ drawSubjectId }) => season.draw(drawSubjectId)?.draw.lots.map(({ lotId }) => lotId) ?? [],
    ),
  );
  const mixed = application.record.data.tankMix?.map(({ lotId }) => lotId) ?? [];
  const volume = inOwnVolume(telling, litresOn(telling, application, target));
  const area = target.areaM2 === null ? null : decimalIn({ value: target.areaM2, unit: 'm2' }, telling.areaUnit);
  const rate = volume === null || area === null || area.isZero() ? null : volume.div(area);
  const days = daysToHarvest(telling, application, target);
  const crops = target.plantingIds.map((plantingId) => nameOf(telling, plantingId));
  return [
    dayCell(telling, application.started.at),
    { text: application.code },
    { text: batches.join(', ') || '–' },
    { text: [...lots, ...mixed].map((lotId) => nameOf(telling, lotId)).join(', ') || words.none },
    numberCell(volume, 1, '–'),
    numberCell(area, 2, '–'),
    numberCell(rate, 1, '–'),
    { text: words.methods[application.record.data.method], value: application.record.data.method },
    { text: crops.join(', ') || '–' },
    { text: personNameAndAddress(telling, application.record.data.applicator) },
    days === null ? { text: '–', value: null } : { text: String(days), value: days },
  ];
}

const volumeColumn = 4;

/** Lines of one place with their total: the sum of the lines as printed. */
export function applicationTable(
  telling: Telling,
  name: string,
  pairs: readonly (readonly [Application, Target])[],
): Block[] {
  const own = texts[telling.language];
  const volumeUnit = unitName(telling.volumeUnit);
  const areaUnit = unitName(telling.areaUnit);
  const rows = pairs.map(([application, target]) => lineOf(telling, application, target));
  const volumes = rows.map((row) => row[volumeColumn]);
  const gaps = volumes.filter((cell) => cell?.value === null).length;
  const splits = new Set(pairs.filter(([{ targets }]) => targets.length > 1).map(([, { splitBy }]) => splitBy));
  const notes = [
    ...(gaps === 0 ? [] : [own.gaps(gaps)]),
    ...(splits.has('area') ? [own.split.area] : []),
    ...(splits.has('equal') ? [own.split.equal] : []),
  ];
  return [
    // Before the table: behind it, one would stand alone on a page now and then.
    ...notes.map((text): Block => ({ kind: 'paragraph', text })),
    {
      kind: 'table',
      name,
      caption: '',
      empty: own.none,
      columns: [
        { key: 'date', label: own.date, type: 'date' },
        { key: 'application', label: own.application, type: 'text' },
        { key: 'batches', label: own.batch, type: 'text' },
        { key: 'lots', label: own.lots, type: 'text' },
        { key: 'volume', label: own.volume(volumeUnit), type: 'number' },
        { key: 'area', label: own.area(areaUnit), type: 'number' },
        { key: 'rate', label: own.rate(`${volumeUnit}/${areaUnit}`), type: 'number' },
        { key: 'method', label: own.method, type: 'text' },
        { key: 'crop', label: own.crop, type: 'text' },
        { key: 'applicator', label: own.applicator, type: 'text' },
        { key: 'daysToHarvest', label: own.harvest, type: 'number' },
      ],
      rows,
      total: Array.from({ length: 11 }, (_, column) =>
        column === 0 ? { text: telling.words.total } : column === volumeColumn ? sumCell(volumes, 1) : { text: '' },
      ),
    },
  ];
}

/** Applications and targets that started within the period, in order of time. */
export const appliedWithin = ({ season }: Telling, time: Period): (readonly [Application, Target])[] =>
  season
    .applications()
    .filter(({ started }) => isWithin(time, started.at))
    .toSorted((a, b) => a.started.at - b.started.at)
    .flatMap((application) => application.targets.map((target) => [application, target] as const));

export function applicationBlocks(telling: Telling, time: Period): Block[] {
  const own = texts[telling.language];
  const { season, now } = telling;
  const pairs = appliedWithin(telling, time);
  const fields = season.fields().toSorted((a, b) => a.registered.code.localeCompare(b.registered.code));
  const known = new Set<string>(fields.map(({ id }) => id));
  const blocks: Block[] = [{ kind: 'paragraph', text: own.intro }];
  if (pairs.length === 0) blocks.push({ kind: 'paragraph', text: fields.length === 0 ? own.noFields : own.none });
  for (const field of fields) {
    const here = pairs.filter(([, { fieldId }]) => fieldId === field.id);
    if (here.length === 0) continue;
    const { code, kind, landStatus } = asOf(field, now);
    blocks.push({
      kind: 'heading',
      level: 2,
      text: own.field(code, own.kinds[kind], own.land[landStatus]),
      anchor: field.id,
    });
    blocks.push(...applicationTable(telling, `field-${code}`, here));
  }
  const elsewhere = pairs.filter(([, { fieldId }]) => fieldId === undefined || !known.has(fieldId));
  if (elsewhere.length > 0) {
    const lots = [
      ...new Set(elsewhere.flatMap(([, { lotId }]) => (lotId === undefined ? [] : [lotName(telling, lotId)]))),
    ];
    const heading = lots.length === 0 ? own.nobody : `${own.nobody}: ${own.lotsWetted} ${lots.join(', ')}`;
    blocks.push({ kind: 'heading', level: 2, text: heading }, ...applicationTable(telling, 'elsewhere', elsewhere));
  }
  return blocks;
}

/** Per field: date, batch, lots, volume, rate, method, crop, applicator, days to harvest; totals as printed. */
export const seasonApplications = defineReport({
  kind: 'season-applications',
  title: { en: texts.en.title, es: texts.es.title },
  parameters: period,
  content(season, parameters, given) {
    const telling = tell(season, given);
    const time = periodOf(telling, parameters);
    const { from, to } = time;
    return report(
      telling,
      { kind: 'season-applications', title: texts[telling.language].title, period: { from, to } },
      applicationBlocks(telling, time),
    );
  },
});
