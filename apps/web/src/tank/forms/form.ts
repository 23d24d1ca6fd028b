import type { Batch, Quantity, RecordType, Season } from '@furrowmark/domain';
import type { Engine } from '../../season/engine.ts';
import type { Settings } from '../../session/settings.ts';
import { chosenFor, quantityIn } from '../../quantity/measures.ts';
import type { Language } from '../../words/catalogue.ts';
import type { TankWords } from '../useTank.ts';
import type { Answer, Answers } from './answer.ts';
import type { FormId } from './ids.ts';

/** What a form is filled in against. */
export interface FormContext {
  readonly engine: Engine;
  readonly season: Season;
  readonly batch: Batch;
  readonly now: number;
  readonly settings: Settings;
  readonly w: TankWords;
  readonly language: Language;
  /** A record is being corrected: the tank's content holds what it says already. */
  readonly amending: boolean;
}

/** One thing to pick. `trouble` says why it should not be used; it can be picked all the same. */
export interface Option {
  readonly value: string;
  readonly label: string;
  readonly detail?: string;
  readonly trouble?: string;
}

interface Common {
  /** The member of the record's data that it fills. */
  readonly name: string;
  readonly label: string;
  readonly required?: boolean;
  /** Shown at once; others stand under "More". */
  readonly upFront?: boolean;
}

export type Field =
  | (Common & {
      readonly kind: 'amount';
      /** UCUM codes, the usual one first. */
      readonly units: readonly string[];
      /** Household measures to count in, by how they are chosen among the units. */
      readonly measures?: ReadonlyMap<string, string>;
      /** Values to take with one touch. */
      readonly likely?: readonly { readonly quantity: Quantity; readonly label?: string }[];
      readonly initial?: Quantity;
    })
  | (Common & {
      readonly kind: 'pick';
      readonly options: readonly Option[];
      readonly many?: boolean;
      readonly initial?: readonly string[];
    })
  | (Common & { readonly kind: 'text'; readonly initial?: string })
  /** A time; `ago`: minutes before now that are one touch. Nobody's time is guessed. */
  | (Common & { readonly kind: 'time'; readonly ago?: readonly number[] });

export type Data = Readonly<Record<string, unknown>>;

/** One kind of record and how it is entered. */
export interface Form {
  readonly id: FormId;
  readonly type: RecordType;
  readonly caution?: 'chlorine' | 'air' | 'apply' | 'dump' | 'look' | 'neutralizer';
  /** What its time is, where that needs saying. */
  readonly timeOf?: 'end';
  /** It says nothing by itself: at least one field or a photo has to. */
  readonly saysNothingAlone?: true;
  fields(context: FormContext): readonly Field[];
  /** Turns what the fields filled into the record's data, where that is not the same. */
  finish?(data: Data, context: FormContext, when: string): Data;
  /** The record's data as the fields show it, for amending. */
  open?(data: Data): Data;
  /** Until when what is recorded goes on at least, where it begins now or later: it is checked as it will be then. */
  takesUntil?(data: Data, context: FormContext): number | null;
  /** Why a value is doubtful, in words; whether to keep it is asked once, and it is kept as written. */
  doubt?(data: Data, context: FormContext): string | null;
}

/** The quantity that an amount's answer writes; undefined while there is none. */
export function quantityOf(answer: Answer | undefined): Quantity | undefined {
  if (answer?.kind !== 'amount') return undefined;
  if (answer.whole !== undefined) return answer.whole;
  const text = answer.text.replace(',', '.');
  const value = Number(text);
  return text === '' || !Number.isFinite(value) ? undefined : quantityIn(value, answer.unit);
}

/** The data that the answers fill, member by member. Empty ones are left out. */
export function dataOf(fields: readonly Field[], answers: Answers, textOf: (at: number) => string): Data {
  const data: Record<string, unknown> = {};
  for (const field of fields) {
    const answer = answers[field.name];
    if (answer === undefined) continue;
    if (answer.kind === 'amount') {
      const quantity = quantityOf(answer);
      if (quantity !== undefined) data[field.name] = quantity;
    } else if (answer.kind === 'pick') {
      const [first] = answer.chosen;
      if (field.kind === 'pick' && field.many === true) data[field.name] = answer.chosen;
      else if (first !== undefined) data[field.name] = first;
    } else if (answer.kind === 'text') {
      if (answer.text.trim() !== '') data[field.name] = answer.text.trim();
    } else data[field.name] = textOf(answer.at);
  }
  return data;
}

/** The answers that a form begins with: its own first guesses, or what the record to be amended says. */
export function firstAnswers(
  fields: readonly Field[],
  said: Data | null,
  instantOf: (text: string) => number,
): Answers {
  const answers: Record<string, Answer> = {};
  for (const field of fields) {
    const value = said?.[field.name];
    const answer = said === null ? guess(field) : read(field, value, instantOf);
    if (answer !== null) answers[field.name] = answer;
  }
  return answers;
}

function guess(field: Field): Answer | null {
  switch (field.kind) {
    case 'amount':
      return field.initial === undefined
        ? { kind: 'amount', text: '', unit: field.units[0] ?? '1' }
        : { ...amountOf(field.initial), guess: true };
    case 'pick':
      return { kind: 'pick', chosen: field.initial ?? [] };
    case 'text':
      return { kind: 'text', text: field.initial ?? '' };
    case 'time':
      return null;
  }
}

function read(field: Field, value: unknown, instantOf: (text: string) => number): Answer | null {
  switch (field.kind) {
    case 'amount':
      return isQuantity(value)
        ? { ...amountOf(value), guess: true }
        : { kind: 'amount', text: '', unit: field.units[0] ?? '1' };
    case 'pick':
      return {
        kind: 'pick',
        chosen:
          typeof value === 'string' ? [value] : Array.isArray(value) ? value.filter((v) => typeof v === 'string') : [],
      };
    case 'text':
      return { kind: 'text', text: typeof value === 'string' ? value : '' };
    case 'time':
      return typeof value === 'string' ? { kind: 'time', at: instantOf(value) } : null;
  }
}

/** An amount's answer that writes the quantity; one that keys cannot write (`< 0.1`, a range) is kept whole. */
export function amountOf(quantity: Quantity): Extract<Answer, { kind: 'amount' }> {
  const base = { kind: 'amount', text: String(quantity.value), unit: chosenFor(quantity) } as const;
  return quantity.qualifier === undefined ? base : { ...base, whole: quantity };
}

export function isQuantity(value: unknown): value is Quantity {
  return (
    typeof value === 'object' &&
    value !== null &&
    typeof Reflect.get(value, 'value') === 'number' &&
    typeof Reflect.get(value, 'unit') === 'string'
  );
}
