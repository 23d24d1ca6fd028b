import type { OpenSeason } from '@furrowmark/domain';
import type { Member } from './columns.ts';
import type { Row } from './row.ts';

/** A record as a row would become it; `beside` tells which of its members stands in which column, where the names differ. */
export interface Wish {
  readonly type: string;
  readonly data: Readonly<Record<string, unknown>>;
  /** A local day on which it happened; the import's own day where left out. */
  readonly on?: string | undefined;
  readonly columns?: Readonly<Record<string, string>>;
}

/** What a kind of table knows while its rows are read. */
export interface Around {
  readonly season: OpenSeason;
  /** Id of the thing that a row describes, the same again for the same content. */
  thingId(row: Row, ...content: readonly unknown[]): string;
  /** A new id that follows from nothing: for people, whose names must not be guessable from it. */
  newId(): string;
  /** Ids of the things that the file itself describes, by code without case. */
  readonly described: Map<string, string>;
}

/** What a row makes: records, or that it is known already (with what it is), or nothing, its problems being in the row. */
export type Made = { readonly wishes: readonly Wish[] } | { readonly known: string } | null;

/** A kind of table that may come in: its columns, and what a row becomes. */
export interface TableKind {
  readonly as: string;
  readonly title: string;
  readonly members: readonly Member[];
  /** What tells a row from others of the file: two rows with the same are a problem. */
  key(row: Row): string | undefined;
  make(row: Row, around: Around): Made;
}

/** Whether two names are the same to people. */
export const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/** Only the members that say something. */
export const filled = (members: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> =>
  Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined));

/** Whether what is there already says the same as what would be recorded, as far as this says anything. */
export const saysTheSame = (there: object, wanted: Readonly<Record<string, unknown>>): boolean =>
  Object.entries(wanted).every(([name, value]) => JSON.stringify(Reflect.get(there, name)) === JSON.stringify(value));
