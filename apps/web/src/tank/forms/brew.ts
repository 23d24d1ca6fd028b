import type { Quantity } from '@furrowmark/domain';
import { lotOptions } from '../../lots/lots.ts';
import { weighOut } from '../../lots/weighOut.ts';
import { chosenFor } from '../../quantity/measures.ts';
import { numberText, quantityText, roundText } from '../../quantity/text.ts';
import { isQuantity, type Form, type FormContext } from './form.ts';
import { instrumentFirst, instrumentsFor, measuresFor, values } from './options.ts';

export const ingredient: Form = {
  id: 'ingredient',
  type: 'batch.ingredientAdded',
  fields(context) {
    const { w, engine, season, batch, now, language } = context;
    const lines = weighOut(engine, season, batch, now, w);
    const wanted = [...lines.filter(({ isIn }) => !isIn), ...lines.filter(({ isIn }) => isIn)];
    const kinds: readonly string[] = ['neutralizer', 'sanitizer'];
    const options = lotOptions(
      context,
      wanted.map(({ materialId }) => materialId),
      (lot) => !kinds.includes(season.material(lot.materialId)?.registered.kind ?? ''),
    );
    const next = wanted.find(({ isIn }) => !isIn);
    const first = next?.lot?.id ?? options.find(({ trouble }) => trouble === undefined)?.value;
    const measures = measuresFor(season);
    const known = ({ amount }: { readonly amount: Quantity }): boolean =>
      amount.measureId === undefined ? amount.unit !== '{measure}' : measures.has(chosenFor(amount));
    const amount = next !== undefined && known(next) ? next.amount : undefined;
    const words = (quantity: Quantity): string => {
      const name = measures.get(chosenFor(quantity));
      return name === undefined
        ? quantityText(quantity, language)
        : `${numberText(quantity.value, language)} × ${name}`;
    };
    return [
      {
        ...{ kind: 'amount', name: 'quantity', label: w.f_amount, required: true, upFront: true },
        units: ['[lb_av]', '[oz_av]', '[gal_us]', '[qt_us]', '[cup_us]', '[foz_us]', 'kg', 'g', 'L', 'mL'],
        measures,
        ...(amount === undefined ? {} : { initial: amount }),
        likely: wanted
          .filter(known)
          .map((line) => ({ quantity: line.amount, label: `${line.name} ${words(line.amount)}` })),
      },
      {
        ...{ kind: 'pick', name: 'lotId', label: w.f_lot, required: true, upFront: true, options },
        initial: first === undefined ? [] : [first],
      },
    ];
  },
};

export const oxygen: Form = {
  id: 'oxygen',
  type: 'batch.oxygenMeasured',
  fields(context) {
    const { w, language } = context;
    return [
      {
        ...{
          kind: 'amount',
          name: 'dissolvedOxygen',
          label: w.f_oxygen,
          units: ['mg/L', '[ppm]'],
          required: true,
          upFront: true,
        },
        likely: around(context).map((value) => ({
          quantity: { value, unit: 'mg/L' },
          label: tenths(value, language),
        })),
      },
      { kind: 'amount', name: 'temperature', label: w.f_temperature, units: ['[degF]', 'Cel'], upFront: true },
      {
        ...{ kind: 'pick', name: 'instrumentId', label: w.f_instrument },
        ...{
          options: instrumentsFor(context, 'dissolvedOxygen'),
          initial: instrumentFirst(context, 'dissolvedOxygen'),
        },
      },
    ];
  },
  doubt(data, context) {
    const { engine, season, w, language } = context;
    const { dissolvedOxygen, temperature } = data;
    if (!isQuantity(dissolvedOxygen)) return null;
    const mgPerL = engine.domain.milligramsPerLitre(dissolvedOxygen)?.toNumber();
    const known = isQuantity(temperature) ? engine.domain.numberIn(temperature, 'Cel') : null;
    const celsius = known ?? 5;
    const elevation = season.elevationM ?? 0;
    const held = engine.domain.saturationMgPerL(celsius, engine.domain.pressureAtElevation(elevation));
    if (mgPerL === undefined || mgPerL <= held * 1.2) return null;
    const water = isQuantity(temperature)
      ? quantityText(temperature, language)
      : quantityText({ value: 5, unit: 'Cel' }, language);
    return w.aboveSaturation(quantityText(dissolvedOxygen, language), water, roundText(held, language));
  },
};

/** As meters show it: `7.0`. */
const tenths = (value: number, language: FormContext['language']): string =>
  language === 'es' ? value.toFixed(1).replace('.', ',') : value.toFixed(1);

/** Values around the last reading, for one touch: oxygen rarely moves by more than a few tenths between readings. */
function around({ batch }: FormContext): readonly number[] {
  const last = batch.oxygen.at(-1)?.mgPerL ?? 7.5;
  const middle = Math.round(last * 10);
  return Array.from({ length: 7 }, (_, i) => (Math.max(middle, 5) - 4 + i) / 10);
}

export const look: Form = {
  id: 'look',
  type: 'batch.checked',
  caution: 'look',
  saysNothingAlone: true,
  fields(context) {
    const { w } = context;
    const yesNo = [
      { value: 'yes', label: w.yes },
      { value: 'no', label: w.no },
      { value: 'unknown', label: w.notSure },
    ];
    return [
      {
        kind: 'pick',
        name: 'odour',
        label: w.f_odour,
        upFront: true,
        options: values(context, ['earthy', 'sweet', 'yeasty', 'sour', 'rotten', 'ammonia']),
      },
      {
        kind: 'pick',
        name: 'surface',
        label: w.f_surface,
        upFront: true,
        options: values(context, ['rolling', 'still']),
      },
      {
        kind: 'pick',
        name: 'foam',
        label: w.f_foam,
        upFront: true,
        options: values(context, ['none', 'some', 'over']),
      },
      { kind: 'pick', name: 'airRunning', label: w.f_airRunning, upFront: true, options: yesNo },
      { kind: 'amount', name: 'temperature', label: w.f_temperature, units: ['[degF]', 'Cel'] },
      { kind: 'amount', name: 'pH', label: w.f_pH, units: ['[pH]'] },
      { kind: 'text', name: 'note', label: w.f_note },
    ];
  },
  finish: ({ pH, ...data }, { batch }) => ({
    batchId: batch.id,
    ...data,
    ...(isQuantity(pH) ? { pH: pH.value } : {}),
  }),
  open: (data) => ({ ...data, pH: typeof data['pH'] === 'number' ? { value: data['pH'], unit: '[pH]' } : undefined }),
};

export const note: Form = {
  id: 'note',
  type: 'batch.checked',
  saysNothingAlone: true,
  fields: ({ w }) => [{ kind: 'text', name: 'note', label: w.f_note, upFront: true }],
};
