import { dimensionOf, unitMeant, type NamedDimension, type Quantity } from '@furrowmark/domain';
import { choiceIn, dateIn, isFault, numberIn, yesNo, type Read, type Writing } from './cells.ts';
import { unitIn, type Places } from './columns.ts';
import type { SheetRow } from './sheet.ts';
import type { CellProblem } from './types.ts';

/** How the file is to be read: units for figures that carry none, and how figures and dates are written. */
export interface Reading extends Writing {
  /** UCUM codes by member: `quantity`, `area`, `dissolvedOxygen`, `temperature`. */
  readonly units: Readonly<Record<string, string>>;
}

/** One row being read: cells by member, problems by column. */
export class Row {
  readonly problems: CellProblem[] = [];

  constructor(
    private readonly sheetRow: SheetRow,
    private readonly places: Places,
    private readonly header: readonly string[],
    private readonly reading: Reading,
  ) {}

  get line(): number {
    return this.sheetRow.line;
  }

  /** The header over a member's column; null where none serves it. */
  column(member: string): string | null {
    const place = this.places.get(member);
    return place === undefined ? null : (this.header[place] ?? null);
  }

  problem(member: string, detail: string): undefined {
    this.problems.push({ column: this.column(member), detail });
    return undefined;
  }

  /** The text of a cell; undefined where it is empty or has no column. */
  text(member: string): string | undefined {
    const place = this.places.get(member);
    const cell = place === undefined ? undefined : this.sheetRow.cells[place];
    return cell === '' ? undefined : cell;
  }

  /** The text of a cell that must say something. */
  needed(member: string): string | undefined {
    return this.text(member) ?? this.problem(member, 'is empty');
  }

  private taken<T>(member: string, read: (cell: string) => Read<T>): T | undefined {
    const cell = this.text(member);
    if (cell === undefined) return undefined;
    const found = read(cell);
    return isFault(found) ? this.problem(member, found.fault) : found.value;
  }

  number(member: string): number | undefined {
    return this.taken(member, (cell) => numberIn(cell, this.reading));
  }

  day(member: string): string | undefined {
    return this.taken(member, (cell) => dateIn(cell, this.reading));
  }

  choice<const T extends string>(
    member: string,
    choices: readonly T[],
    said?: Readonly<Record<string, T>>,
  ): T | undefined {
    return this.taken(member, (cell) => choiceIn(cell, choices, said));
  }

  yesNoUnknown(member: string): 'yes' | 'no' | 'unknown' | undefined {
    return this.choice(member, ['yes', 'no', 'unknown'], { ...yesNo, '?': 'unknown', desconocido: 'unknown' });
  }

  yesNo(member: string): 'yes' | 'no' | undefined {
    return this.choice(member, ['yes', 'no'], yesNo);
  }

  /**
   * An amount with its unit: from the cell itself (`50 lb`), else a column of units, else the header (`Quantity (lb)`, or `headed`), else
   * what was said for the whole file.
   */
  quantity(member: string, dimensions: readonly NamedDimension[], headed?: string): Quantity | undefined {
    const cell = this.text(member);
    if (cell === undefined) return undefined;
    if (cell.length > 100) return this.problem(member, 'is too long for an amount');
    // eslint-disable-next-line regexp/no-super-linear-backtracking -- of a hundred signs at most, see above
    const [, figure = cell, own] = /^([+-]?[\d.,'’\s]*\d[\d.,]*(?:[eE][+-]?\d+)?)\s*(\D.*)?$/.exec(cell) ?? [];
    const value = numberIn(figure.trim(), this.reading);
    if (isFault(value)) return this.problem(member, value.fault);
    const written =
      own ?? this.text(`${member}Unit`) ?? headed ?? unitIn(this.column(member) ?? '') ?? this.reading.units[member];
    if (written === undefined)
      return this.problem(
        member,
        'has no unit: write it behind the figure, in a column of its own, or say it for the file',
      );
    const unit = unitMeant(written, dimensions) ?? counted(written, dimensions);
    return unit === null
      ? this.problem(member, `“${written}” is no unit of ${dimensions.join(' or ')}`)
      : { value: value.value, unit };
  }
}

/** `{bag}` is a unit of its own where things are counted; only written as such, so that a misspelt pound stays a problem. */
const counted = (written: string, dimensions: readonly NamedDimension[]): string | null =>
  dimensions.includes('count') && (written === '{count}' || dimensionOf(written) === 'count') ? written : null;
