import { boundaryIn, outlineIn } from '../field/outline/corners.ts';
import type { Member } from './members.ts';

/** What stands in a form, by member: texts, a figure with its unit, several of a list. */
export type Drafted = Readonly<Record<string, DraftedValue>>;
export type DraftedValue =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'quantity'; readonly text: string; readonly unit: string; readonly qualifier?: string }
  | { readonly kind: 'several'; readonly chosen: readonly string[] }
  | { readonly kind: 'rows'; readonly rows: readonly Drafted[] };

const memberOf = (data: object, name: string): unknown => Reflect.get(data, name);
const textIn = (value: unknown): string =>
  typeof value === 'string' ? value : typeof value === 'boolean' ? 'yes' : '';

/** What a form begins with: what the record says, or the first of each list. */
export function drafted(members: readonly Member[], data: object): Drafted {
  return Object.fromEntries(
    members.map(({ name, control, optional }): [string, DraftedValue] => {
      const value = memberOf(data, name);
      switch (control.kind) {
        case 'quantity': {
          const [amount, unit] =
            typeof value === 'object' && value !== null
              ? [Reflect.get(value, 'value'), Reflect.get(value, 'unit')]
              : [undefined, undefined];
          return [
            name,
            {
              kind: 'quantity',
              text: typeof amount === 'number' ? String(amount) : '',
              unit: typeof unit === 'string' ? unit : (control.units[0]?.[0] ?? ''),
            },
          ];
        }
        case 'several': {
          const chosen =
            typeof value === 'string'
              ? [value]
              : Array.isArray(value)
                ? value.filter((each) => typeof each === 'string')
                : [];
          return [name, { kind: 'several', chosen }];
        }
        case 'flag':
          return [name, { kind: 'text', text: value === true ? 'yes' : 'no' }];
        case 'rows':
          return [name, { kind: 'rows', rows: [drafted(control.of, {})] }];
        case 'one':
          return [name, { kind: 'text', text: textIn(value) || (optional === true ? '' : (control.of[0] ?? '')) }];
        case 'outline':
          return [name, { kind: 'text', text: outlineIn(value) }];
        default:
          return [name, { kind: 'text', text: textIn(value) }];
      }
    }),
  );
}

/** The form with what was kept of it. What it has no entry for any more, or another control, is left out. */
export function draftedAgain(first: Drafted, kept: unknown): Drafted {
  if (typeof kept !== 'object' || kept === null) return first;
  return Object.fromEntries(
    Object.entries(first).map(([name, value]) => {
      const again: unknown = Reflect.get(kept, name);
      return [name, isDraftedValue(again) && again.kind === value.kind ? again : value];
    }),
  );
}

function isDraftedValue(value: unknown): value is DraftedValue {
  if (typeof value !== 'object' || value === null) return false;
  const [kind, text, unit, chosen]: readonly unknown[] = ['kind', 'text', 'unit', 'chosen'].map((name) =>
    Reflect.get(value, name),
  );
  if (kind === 'several') return Array.isArray(chosen) && chosen.every((each) => typeof each === 'string');
  return typeof text === 'string' && (kind === 'text' || (kind === 'quantity' && typeof unit === 'string'));
}

/** The member as the record takes it; undefined: left out. */
function valueOf(member: Member, value: DraftedValue | undefined): unknown {
  if (value === undefined) return undefined;
  switch (value.kind) {
    case 'quantity':
      return value.text.trim() === ''
        ? undefined
        : {
            ...{ value: Number(value.text), unit: value.unit },
            ...((value.qualifier ?? '') === '' ? {} : { qualifier: value.qualifier }),
          };
    case 'rows': {
      const { control } = member;
      if (control.kind !== 'rows') return undefined;
      return value.rows.map((row) => dataOf(control.of, row, {})).filter((row) => control.needs in row);
    }
    case 'several':
      return value.chosen.length === 0 ? undefined : value.chosen;
    case 'text':
      if (member.control.kind === 'flag')
        return value.text === 'yes' ? true : member.optional === true ? undefined : false;
      if (value.text.trim() !== '' && member.control.kind === 'outline') return boundaryIn(value.text);
      if (value.text !== '' && member.control.kind === 'count') return Number(value.text);
      if (value.text !== '' && member.control.kind === 'party') return { name: value.text };
      // An empty supplier's lot is an answer: the bag bears none.
      return value.text === '' && member.name !== 'supplierLot' ? undefined : value.text;
  }
}

/** The members that are asked for, given what the others say. */
export const askedOf = (members: readonly Member[], form: Drafted): readonly Member[] =>
  members.filter(({ when }) => {
    if (when === undefined) return true;
    const other = form[when[0]];
    return other?.kind === 'text' && other.text === when[1];
  });

/** The whole of the data: what the form has, and what it does not show (an outline, an id) as it was. */
export function dataOf(members: readonly Member[], form: Drafted, before: object): Record<string, unknown> {
  const shown = new Set(members.map(({ name }) => name));
  const kept = Object.entries(before).filter(([name]) => !shown.has(name));
  const written = askedOf(members, form).flatMap((member): [string, unknown][] => {
    const value = valueOf(member, form[member.name]);
    return value === undefined ? [] : [[member.name, value]];
  });
  return Object.fromEntries([...kept, ...written]);
}

/** Only what the form says otherwise than before: what a revision names. */
export function changesIn(members: readonly Member[], form: Drafted, before: object): Record<string, unknown> {
  return Object.fromEntries(
    members.flatMap((member): [string, unknown][] => {
      const value = valueOf(member, form[member.name]);
      const same = JSON.stringify(value) === JSON.stringify(valueOf(member, drafted([member], before)[member.name]));
      return same || value === undefined ? [] : [[member.name, value]];
    }),
  );
}
