import { v7 } from 'uuid';
import { lotOptions } from '../../lots/lots.ts';
import { quantityText } from '../../quantity/text.ts';
import { whoHere } from '../../records/person.ts';
import { isQuantity, type Data, type Field, type Form, type FormContext } from './form.ts';
import { carriers, contentOf, measuresFor, people, things, values, volumeUnits } from './options.ts';
import { takesUntil } from './takes.ts';

/** A volume that leaves the tank; all that is left is one touch. */
function volume(context: FormContext, required = true, name = 'volume'): Field {
  const { w, language, batch } = context;
  const all = contentOf(context);
  const unit = batch.fills[0]?.quantity.unit ?? '[gal_us]';
  return {
    ...{ kind: 'amount', name, label: w.f_volume, required, upFront: true },
    units: [unit, ...volumeUnits.filter((each) => each !== unit)],
    likely: all === null ? [] : [{ quantity: all, label: `${w.v_whole} · ${quantityText(all, language)}` }],
  };
}

/** More than by the books is in the tank, by a hundredth and over: a slip of the finger, or a fill that is not recorded. */
function doubt({ volume: leaves }: Data, context: FormContext): string | null {
  const { engine, w, language, amending } = context;
  const all = contentOf(context);
  if (amending || all === null || !isQuantity(leaves)) return null;
  const value = engine.domain.numberIn(leaves, all.unit);
  return value === null || value <= all.value * 1.01
    ? null
    : w.moreThanThere(quantityText(leaves, language), quantityText(all, language));
}

export const draw: Form = {
  id: 'draw',
  type: 'batch.drawn',
  doubt,
  fields(context) {
    const { w } = context;
    return [
      volume(context),
      { kind: 'pick', name: 'into', label: w.f_into, upFront: true, options: carriers(context) },
      {
        ...{ kind: 'pick', name: 'keptAerated', label: w.f_kept, initial: ['no'] },
        options: [
          { value: 'yes', label: w.yes },
          { value: 'no', label: w.no },
        ],
      },
    ];
  },
  finish: ({ keptAerated, drawId, ...data }, { batch }) => ({
    drawId: drawId ?? v7(),
    batchId: batch.id,
    ...data,
    keptAerated: keptAerated === 'yes',
  }),
  open: (data) => ({ ...data, keptAerated: data['keptAerated'] === true ? 'yes' : 'no' }),
};

/** Loads that left the tank and have not been applied or ended yet. */
function openDraws({ batch, language }: FormContext) {
  return batch.draws
    .filter(({ drawId, applicationId, ended }) => drawId !== null && applicationId === null && ended.length === 0)
    .map((load) => ({ value: load.drawId ?? '', label: quantityText(load.quantity, language) }));
}

export const apply: Form = {
  id: 'apply',
  type: 'application.made',
  caution: 'apply',
  timeOf: 'end',
  takesUntil,
  doubt: ({ draws }, context) => doubt({ volume: Reflect.get(listOf(draws)[0] ?? {}, 'volume') }, context),
  fields(context) {
    const { w, season, batch, settings } = context;
    const loads = openDraws(context);
    const fields = things(context, season.fields(), ({ registered }) => registered.code).map((option) => {
      const crops = season
        .plantings()
        .filter(({ started, ended }) => started.data.fieldId === option.value && ended === undefined);
      return { ...option, detail: crops.map(({ started }) => started.data.crop).join(', ') };
    });
    const last = batch.draws.at(-1);
    const into = last?.into;
    const mix = lotOptions(context, [], () => true);
    return [
      { kind: 'pick', name: 'fieldIds', label: w.f_fields, required: true, upFront: true, many: true, options: fields },
      ...(loads.length === 0
        ? [volume(context)]
        : [
            {
              ...({
                kind: 'pick',
                name: 'drawIds',
                label: w.f_draw,
                required: true,
                upFront: true,
                many: true,
              } as const),
              options: loads,
              initial: loads.map(({ value }) => value),
            },
          ]),
      {
        ...{ kind: 'pick', name: 'method', label: w.f_applyMethod, required: true, upFront: true },
        options: values(context, ['soilDrench', 'foliar', 'irrigation', 'inFurrow', 'rootDip', 'seedSoak']),
      },
      {
        kind: 'pick',
        name: 'edibleParts',
        label: w.f_edible,
        upFront: true,
        options: values(context, ['absent', 'present']),
      },
      {
        kind: 'time',
        name: 'startedAt',
        label: w.f_started,
        required: true,
        upFront: true,
        ago: [0, 15, 30, 60, 120],
      },
      {
        ...{
          kind: 'pick',
          name: 'applicator',
          label: w.f_applicator,
          required: true,
          upFront: true,
          options: people(context),
        },
        initial: [whoHere(season, settings.who)].filter((who) => who !== null),
      },
      { kind: 'amount', name: 'area', label: w.f_area, units: ['[acr_us]', 'har', '[sft_i]'] },
      {
        ...{ kind: 'pick', name: 'equipmentId', label: w.f_equipment },
        options: carriers(context).filter(({ value }) => season.vessel(value) === undefined),
        initial: into === undefined || season.vessel(into) !== undefined ? [] : [into],
      },
      { kind: 'amount', name: 'dilutionVolume', label: w.f_dilution, units: volumeUnits },
      {
        kind: 'pick',
        name: 'dilutionSourceId',
        label: w.f_dilutionSource,
        options: things(context, season.sources(), ({ registered }) => registered.code),
      },
      { kind: 'pick', name: 'mixLotId', label: w.f_tankMix, options: mix },
      {
        kind: 'amount',
        name: 'mixQuantity',
        label: `${w.f_tankMix}: ${w.f_amount}`,
        units: ['[gal_us]', '[qt_us]', '[foz_us]', '[lb_av]', '[oz_av]', 'L', 'kg', 'g'],
        measures: measuresFor(season),
      },
    ];
  },
  finish({ fieldIds, drawIds, volume: amount, area, mixLotId, mixQuantity, applicationId, ...data }, { batch }, when) {
    const fields = Array.isArray(fieldIds) ? fieldIds : [];
    const draws = Array.isArray(drawIds)
      ? drawIds.map((drawId: unknown) => ({ drawId }))
      : [{ batchId: batch.id, volume: amount }];
    return {
      applicationId: applicationId ?? v7(),
      targets: fields.map((fieldId: unknown) => ({
        fieldId,
        ...(area === undefined || fields.length > 1 ? {} : { area }),
      })),
      draws,
      ...(mixLotId === undefined || mixQuantity === undefined
        ? {}
        : { tankMix: [{ lotId: mixLotId, quantity: mixQuantity }] }),
      ...data,
      finishedAt: when,
    };
  },
  open: (data) => {
    const targets = listOf(data['targets']);
    const [mix] = listOf(data['tankMix']);
    const loads = listOf(data['draws']);
    return {
      ...data,
      fieldIds: targets.map((target) => Reflect.get(target, 'fieldId')),
      area: targets.length === 1 ? Reflect.get(targets[0] ?? {}, 'area') : undefined,
      drawIds: loads.map((load) => Reflect.get(load, 'drawId')),
      volume: Reflect.get(loads[0] ?? {}, 'volume'),
      ...(mix === undefined ? {} : { mixLotId: Reflect.get(mix, 'lotId'), mixQuantity: Reflect.get(mix, 'quantity') }),
    };
  },
};

const listOf = (value: unknown): readonly object[] =>
  Array.isArray(value) ? value.filter((each) => typeof each === 'object' && each !== null) : [];

export const lost: Form = {
  id: 'lost',
  type: 'batch.lost',
  doubt,
  fields: (context) => [
    volume(context),
    {
      ...{ kind: 'pick', name: 'cause', label: context.w.f_cause, required: true, upFront: true },
      options: values(context, ['foam', 'leak', 'spill']),
    },
  ],
};

export const dump: Form = {
  id: 'dump',
  type: 'batch.disposed',
  caution: 'dump',
  doubt,
  fields: (context) => [
    volume(context),
    { kind: 'text', name: 'reason', label: context.w.f_reason, required: true, upFront: true },
    { kind: 'text', name: 'where', label: context.w.f_where, required: true, upFront: true },
  ],
};

export const close: Form = {
  id: 'close',
  type: 'batch.closed',
  fields: (context) => {
    const { w, language, batch } = context;
    const unit = batch.fills[0]?.quantity.unit ?? '[gal_us]';
    const all = contentOf(context);
    const zero = { value: 0, unit };
    return [
      {
        ...{ kind: 'amount', name: 'remainingVolume', label: w.f_remaining, upFront: true },
        units: [unit, ...volumeUnits.filter((each) => each !== unit)],
        likely: [zero, ...(all === null ? [] : [all])].map((quantity) => ({
          quantity,
          label: quantityText(quantity, language),
        })),
      },
      { kind: 'text', name: 'note', label: w.f_note },
    ];
  },
};
