import { lotOptions } from '../../lots/lots.ts';
import { quantityText, roundText, unitText } from '../../quantity/text.ts';
import { isQuantity, type Form } from './form.ts';
import {
  before,
  blowers,
  contentOf,
  instrumentFirst,
  instrumentsFor,
  measuresFor,
  things,
  values,
  volumeUnits,
} from './options.ts';

export const fill: Form = {
  id: 'fill',
  type: 'batch.filled',
  fields(context) {
    const { w, batch, season, language } = context;
    const last = before(context);
    const sources = things(context, season.sources(), ({ registered }) => registered.code);
    // The water that was used last; of a single one there is nothing to pick.
    const only = sources.length === 1 ? sources[0]?.value : undefined;
    const usual = batch.fills[0]?.sourceId ?? last?.fills[0]?.sourceId ?? only;
    const planned = batch.opened?.data.plannedVolume;
    const guesses = [planned, last?.fills[0]?.quantity].filter((each) => each !== undefined);
    const marks = batch.vesselId === null ? [] : (season.vessel(batch.vesselId)?.registered.marks ?? []);
    return [
      {
        ...{ kind: 'amount', name: 'volume', label: w.f_volume, units: volumeUnits, required: true, upFront: true },
        likely: [
          ...unique(guesses).map((quantity) => ({ quantity, label: quantityText(quantity, language) })),
          ...marks.map(({ name, volume }) => ({
            quantity: volume,
            label: `${name} · ${quantityText(volume, language)}`,
          })),
        ],
        ...(planned === undefined || batch.fills.length > 0 ? {} : { initial: planned }),
      },
      {
        ...{ kind: 'pick', name: 'sourceId', label: w.f_source, required: true, upFront: true },
        options: sources,
        initial: usual === undefined ? [] : [usual],
      },
    ];
  },
  // More than the tank takes to the rim, with what is in it.
  doubt({ volume }, context) {
    const { engine, season, batch, now, w, language, amending } = context;
    const vessel = batch.vesselId === null ? undefined : season.vessel(batch.vesselId);
    if (amending || vessel === undefined || !isQuantity(volume)) return null;
    const { code, totalVolume } = engine.domain.asOf(vessel, now);
    const { numberIn } = engine.domain;
    const [rim, added] = [numberIn(totalVolume, volume.unit), numberIn(volume, volume.unit)];
    const inIt = contentOf(context);
    const all = (added ?? 0) + ((inIt && numberIn(inIt, volume.unit)) ?? 0);
    return rim === null || all <= rim
      ? null
      : w.overRim(
          code,
          `${roundText(all, language, 10)} ${unitText(volume.unit, language)}`,
          quantityText(totalVolume, language),
        );
  },
};

const unique = <T extends { readonly value: number; readonly unit: string }>(all: readonly T[]): readonly T[] =>
  all.filter((each, i) => all.findIndex(({ value, unit }) => value === each.value && unit === each.unit) === i);

export const airOn: Form = {
  id: 'airOn',
  type: 'batch.airStarted',
  caution: 'air',
  fields(context) {
    const blower = context.batch.airStarts.at(-1)?.blowerId ?? before(context)?.airStarts[0]?.blowerId;
    const options = blowers(context);
    const first = blower ?? (options.length === 1 ? options[0]?.value : undefined);
    return [
      {
        ...{ kind: 'pick', name: 'blowerId', label: context.w.f_blower, upFront: true, options },
        initial: first === undefined ? [] : [first],
      },
    ];
  },
};

export const airOff: Form = {
  id: 'airOff',
  type: 'batch.airStopped',
  fields(context) {
    const { w, batch } = context;
    const blower = batch.airStarts.at(-1)?.blowerId;
    return [
      {
        ...{ kind: 'pick', name: 'cause', label: w.f_cause, upFront: true, initial: ['planned'] },
        options: values(context, ['planned', 'powerCut', 'breakdown', 'other']),
      },
      {
        ...{ kind: 'pick', name: 'blowerId', label: w.f_blower, options: blowers(context) },
        initial: blower === undefined ? [] : [blower],
      },
      { kind: 'time', name: 'lastKnownRunningAt', label: w.f_lastKnown },
    ];
  },
  // Found off: the air stopped some time between when it was last known to run and now.
  finish: (data, { batch }, when) => ({
    batchId: batch.id,
    ...data,
    ...(data['lastKnownRunningAt'] === undefined ? {} : { foundAt: when }),
  }),
};

export const chlorine: Form = {
  id: 'chlorine',
  type: 'batch.chlorineMeasured',
  caution: 'chlorine',
  fields(context) {
    const { w, batch, language } = context;
    const chloramine = batch.fills.some(({ disinfectant }) => disinfectant === 'chloramine');
    const pads = [
      { value: 0, unit: 'mg/L' },
      { value: 0, high: 0.5, unit: 'mg/L', qualifier: 'between' as const },
      { value: 0.5, high: 1, unit: 'mg/L', qualifier: 'between' as const },
      { value: 1, high: 3, unit: 'mg/L', qualifier: 'between' as const },
    ];
    return [
      {
        ...{ kind: 'amount', name: 'reading', label: w.f_chlorine, units: ['mg/L'], required: true, upFront: true },
        likely: pads.map((quantity) => ({ quantity, label: quantityText(quantity, language) })),
      },
      {
        ...{ kind: 'pick', name: 'which', label: w.f_which, required: true, upFront: true },
        options: [
          { value: 'free', label: w.f_free },
          { value: 'total', label: w.f_total },
        ],
        initial: [chloramine ? 'total' : 'free'],
      },
      {
        ...{ kind: 'pick', name: 'method', label: w.f_method, required: true, initial: ['strip'] },
        options: values(context, ['strip', 'dropKit', 'meter']),
      },
      {
        ...{ kind: 'pick', name: 'instrumentId', label: w.f_instrument },
        ...{ options: instrumentsFor(context, 'chlorine'), initial: instrumentFirst(context, 'chlorine') },
      },
    ];
  },
  finish: ({ reading, which, ...data }, { batch }) => ({
    batchId: batch.id,
    ...data,
    ...(which === 'total' ? { total: reading } : { free: reading }),
  }),
  open: ({ free, total, ...data }) => ({
    ...data,
    reading: free ?? total,
    which: free === undefined ? 'total' : 'free',
  }),
};

export const neutralizer: Form = {
  id: 'neutralizer',
  type: 'batch.neutralizerAdded',
  caution: 'neutralizer',
  fields(context) {
    const { w, season } = context;
    const options = lotOptions(
      context,
      [],
      (lot) => season.material(lot.materialId)?.registered.kind === 'neutralizer',
    );
    const first = options.find(({ trouble }) => trouble === undefined);
    return [
      {
        kind: 'amount',
        name: 'quantity',
        label: w.f_amount,
        units: ['g', '[oz_av]', 'mL', '[foz_us]'],
        measures: measuresFor(season),
        required: true,
        upFront: true,
      },
      {
        ...{ kind: 'pick', name: 'lotId', label: w.f_lot, required: true, upFront: true, options },
        initial: first === undefined ? [] : [first.value],
      },
    ];
  },
};
