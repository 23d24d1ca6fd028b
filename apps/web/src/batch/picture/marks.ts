import type { Batch, Season } from '@furrowmark/domain';
import type { TimeAxis } from '../../picture/axis.ts';
import type { Limit } from '../../tank/limits.ts';

/** A record as a mark in the picture. */
export interface Mark {
  readonly recordId: string;
  readonly at: number;
  readonly row: 'water' | 'in' | 'out';
  readonly shape: 'drop' | 'chlorine' | 'added' | 'drawn' | 'dumped' | 'checked';
  /** Text beside the mark. */
  readonly label: string;
  /** The same in fewer words, for where it finds no room; the fewest last. */
  readonly shorter?: readonly string[];
}

/** How a mark is said in the person's language. */
export interface MarkWords {
  readonly quantity: (quantity: Batch['fills'][number]['quantity']) => string;
  readonly odour: (odour: NonNullable<Batch['checks'][number]['data']['odour']>) => string;
  readonly loss: (kind: Batch['losses'][number]['kind']) => string;
}

/** What is marked: fills and chlorine above, ingredients, looks, draws and applications with their fields below. */
export function marksOf(season: Season, batch: Batch, say: MarkWords): readonly Mark[] {
  const text = say.quantity;
  const marks: Mark[] = [];
  for (const { recordId, finished, quantity } of batch.fills) {
    marks.push({ recordId, at: finished.at, row: 'water', shape: 'drop', label: text(quantity) });
  }
  for (const { id, at, data } of batch.chlorine) {
    const reading = data.free ?? data.total;
    marks.push({
      recordId: id,
      at: at.at,
      row: 'water',
      shape: 'chlorine',
      label: reading === undefined ? 'Cl' : `Cl ${text(reading)}`,
    });
  }
  for (const { recordId, at, materialId, quantity } of batch.ingredients) {
    const code = materialId === null ? '' : (season.material(materialId)?.registered.code ?? '');
    marks.push({ recordId, at: at.at, row: 'in', shape: 'added', label: `${code} ${text(quantity)}`.trim() });
  }
  for (const { id, at, data } of batch.checks) {
    marks.push({
      recordId: id,
      at: at.at,
      row: 'in',
      shape: 'checked',
      label: data.odour === undefined ? '' : say.odour(data.odour),
    });
  }
  for (const draw of batch.draws) {
    const application = draw.applicationId === null ? undefined : season.application(draw.applicationId);
    const fields = (application?.targets ?? []).map(({ fieldId }) =>
      fieldId === undefined ? '' : (season.field(fieldId)?.registered.code ?? ''),
    );
    const [first, ...others] = fields.filter((code) => code !== '');
    const quantity = text(draw.quantity);
    marks.push({
      ...{ recordId: draw.recordIds[0] ?? '', at: draw.at.at, row: 'out', shape: 'drawn' },
      label: [quantity, ...(first === undefined ? [] : [first, ...others])].join(' → '),
      shorter: [...(others.length === 0 ? [] : [`${quantity} → ${first ?? ''} → …`]), quantity],
    });
  }
  for (const { recordId, at, kind } of batch.losses)
    marks.push({ recordId, at: at.at, row: 'out', shape: 'dumped', label: say.loss(kind) });
  return marks;
}

/** From the first thing that happened to the last, with the limits that bear on what is open. */
export function reachOf(batch: Batch, limits: readonly Limit[], now: number): { from: number; to: number } {
  const moments = batch.records
    .filter(
      ({ state, type }) =>
        state !== 'struck' && !type.startsWith('record.') && type !== 'batch.reviewed' && type !== 'document.attached',
    )
    .map(({ at }) => at.at);
  const applied = batch.draws.flatMap(({ appliedUntil }) => (appliedUntil === null ? [] : [appliedUntil.at]));
  const open = batch.closed === null;
  const last = Math.max(...moments, ...applied, ...(open ? [now] : []));
  const first = Math.min(...moments);
  const ahead = limits.filter(({ at }) => open && at > first && at < last + 12 * 3_600_000).map(({ at }) => at);
  const to = Math.max(last, ...ahead);
  const room = Math.max((to - first) * 0.025, 5 * 60_000);
  return { from: first - room, to: to + room };
}

interface Placed<T> {
  readonly item: T;
  readonly x: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly line: number;
}

/** The mark's text in as many words as fit between two places. */
export const fitting = ({ label, shorter = [] }: Mark, [left, right]: readonly [number, number]): string =>
  [label, ...shorter].find((each) => widthOf(each) <= right - left) ?? shorter.at(-1) ?? label;

/**
 * Puts texts under their places, in as few lines as keep them apart; those that find no room are left to the table.
 * What `first` picks is placed before the rest, so that it is the rest that has to go.
 */
export function placeTexts<T>(
  items: readonly T[],
  at: (item: T) => number,
  text: (item: T) => string,
  [left, right]: readonly [number, number],
  lines: number,
  first: (item: T) => boolean = () => true,
): readonly Placed<T>[] {
  const taken: [number, number][][] = Array.from({ length: lines }, () => []);
  return [...items]
    .sort((a, b) => Number(first(b)) - Number(first(a)) || at(a) - at(b))
    .flatMap((item): Placed<T>[] => {
      const width = widthOf(text(item));
      const middle = at(item);
      const anchor = middle - width / 2 < left ? 'start' : middle + width / 2 > right ? 'end' : 'middle';
      const x =
        anchor === 'start'
          ? Math.max(left, Math.min(middle, right - width))
          : anchor === 'end'
            ? Math.min(right, Math.max(middle, left + width))
            : middle;
      const start = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
      const line = taken.findIndex((each) => each.every(([a, b]) => start >= b || start + width <= a));
      const free = taken[line];
      if (free === undefined) return [];
      free.push([start, start + width]);
      return [{ item, x, anchor, line }];
    });
}

/**
 * The days over their first ticks, kept apart and inside the picture; where they find no room they go without the day of
 * the week.
 */
export function placeDays(
  { ticks, x, from, to }: TimeAxis,
  day: (at: number) => string,
): readonly Placed<{ readonly at: number; readonly text: string }>[] {
  const first = ticks.filter((at, i) => i === 0 || day(at) !== day(ticks[i - 1] ?? at));
  const days = (text: (at: number) => string) =>
    placeTexts(
      first.map((at) => ({ at, text: text(at) })),
      ({ at }) => x(at),
      ({ text: each }) => each,
      [x(from), x(to)],
      1,
    );
  const whole = days(day);
  return whole.length === first.length ? whole : days((at) => day(at).replace(/^.*?, /, ''));
}

/** About the width of a character of the picture's text, px. */
const perCharacter = 7.2;
const widthOf = (text: string): number => text.length * perCharacter + 8;
