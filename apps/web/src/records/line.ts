import type { CurrentRecord, Quantity } from '@furrowmark/domain';
import { measureName } from '../quantity/measures.ts';
import { shownQuantity } from '../quantity/text.ts';
import type { LocalSeason } from '../season/local.ts';
import type { Settings } from '../session/settings.ts';
import { tankWords } from '../tank/words.ts';
import { recordWords } from './words.ts';

/** A record in one line: what it is, and what it says. */
export interface RecordLine {
  readonly what: string;
  readonly detail: string;
}

/** The record's type in people's words. */
export function typeText(type: string, language: Settings['language']): string {
  const words: Readonly<Record<string, string>> = recordWords[language];
  return words[type] ?? type;
}

/** Says a record (or what one said before it was amended) in one line. */
export function lineOf(
  local: LocalSeason,
  record: Pick<CurrentRecord, 'type' | 'data'>,
  settings: Settings,
): RecordLine {
  return { what: typeText(record.type, settings.language), detail: detailOf(local, record, settings) };
}

function detailOf(
  { engine, season }: LocalSeason,
  record: Pick<CurrentRecord, 'type' | 'data'>,
  settings: Settings,
): string {
  const { language, units } = settings;
  const w = recordWords[language];
  const v: Readonly<Record<string, unknown>> = tankWords[language];
  const q = (quantity: Quantity | undefined): string =>
    quantity === undefined
      ? ''
      : shownQuantity(
          quantity,
          language,
          units,
          engine,
          quantity.measureId === undefined ? undefined : measureName(season, quantity.measureId),
        );
  const value = (name: string | undefined): string => {
    const text = name === undefined ? '' : v[`v_${name}`];
    return typeof text === 'string' ? text : (name ?? '');
  };
  const code = (id: string | undefined): string =>
    id === undefined
      ? ''
      : (season.equipment(id)?.registered.code ??
        season.vessel(id)?.registered.code ??
        season.source(id)?.registered.code ??
        season.field(id)?.registered.code ??
        season.lot(id)?.code ??
        '');
  const join = (...parts: readonly string[]): string => parts.filter((part) => part !== '').join(' · ');
  const lot = (id: string): string => {
    const found = season.lot(id);
    const name = found === undefined ? '' : (season.material(found.materialId)?.registered.name ?? '');
    return join(found?.code ?? '', name);
  };
  const of = asTyped(record);
  switch (of.type) {
    case 'batch.opened':
      return join(of.data.code, code(of.data.vesselId), q(of.data.plannedVolume));
    case 'batch.filled':
      return join(q(of.data.volume), code(of.data.sourceId));
    case 'batch.airStarted':
      return code(of.data.blowerId);
    case 'batch.airStopped':
      return join(value(of.data.cause), code(of.data.blowerId));
    case 'batch.chlorineMeasured': {
      const { free, total, method } = of.data;
      return join(
        free === undefined ? '' : `${w.free} ${q(free)}`,
        total === undefined ? '' : `${w.total} ${q(total)}`,
        value(method),
      );
    }
    case 'batch.neutralizerAdded':
    case 'batch.ingredientAdded':
      return join(q(of.data.quantity), lot(of.data.lotId));
    case 'batch.oxygenMeasured':
      return join(q(of.data.dissolvedOxygen), q(of.data.temperature));
    case 'batch.checked': {
      const { airRunning, odour, surface, foam, pH, note, temperature } = of.data;
      return join(
        airRunning === undefined ? '' : `${w.air} ${w[airRunning]}`,
        ...[
          value(odour),
          value(surface),
          foam === undefined ? '' : `${w.foam} ${value(foam)}`,
          pH === undefined ? '' : `pH ${String(pH)}`,
          q(temperature),
          note ?? '',
        ],
      );
    }
    case 'batch.drawn':
      return join(q(of.data.volume), of.data.into === undefined ? '' : `${w.to} ${code(of.data.into)}`);
    case 'draw.ended':
      return join(
        ...[q(of.data.volume), w[of.data.fate], of.data.where ?? ''],
        of.data.intoBatchId === undefined ? '' : (season.batch(of.data.intoBatchId)?.code ?? ''),
      );
    case 'batch.lost':
      return join(q(of.data.volume), value(of.data.cause));
    case 'batch.disposed':
      return join(q(of.data.volume), of.data.reason, of.data.where);
    case 'batch.closed':
      return join(q(of.data.remainingVolume), of.data.note ?? '');
    case 'batch.reviewed':
      return of.data.statement;
    case 'application.made': {
      const where = of.data.targets.map(({ fieldId, lotId }) => code(fieldId ?? lotId)).join(', ');
      const volumes = of.data.draws.map((each) =>
        'volume' in each ? q(each.volume) : q(season.draw(each.drawId)?.draw.quantity),
      );
      return join(where, volumes.join(' + '), value(of.data.method));
    }
    case 'tea.supplied':
      return join(q(of.data.volume), of.data.to.name);
    case 'document.attached':
      return of.data.title;
    default:
      return '';
  }
}

/** A record's type and data always belong together; taken apart, the compiler has to be told so again. */
function asTyped(record: Pick<CurrentRecord, 'type' | 'data'>): CurrentRecord {
  return record as CurrentRecord; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- only type and data are looked at, and they come from one record
}
