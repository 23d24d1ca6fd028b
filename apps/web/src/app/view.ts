import { createContext, type ComponentType, type LazyExoticComponent } from 'react';
import { roleOf, type Session } from '../session/session.ts';

/** One page. `path` is wouter's: `/batch/:id`; its parameters come with `useParams()`. */
export interface View {
  readonly path: string;
  readonly page: ComponentType | LazyExoticComponent<ComponentType>;
  /** Fetches the page, so that it is there at once when it is opened. */
  getReady(): Promise<void>;
  /** Where it is offered: in the bar of the phone's thumb, or under “More” (and in the desk's list). Absent: only linked. */
  readonly offered?: 'bar' | 'more';
  readonly label?: { readonly en: string; readonly es: string };
  /**
   * Whom it is of use to, where that is not everybody. `writers`: not to who only reads. `members`: not to an inspector
   * with a reading link. `inspection`: to that one above all.
   */
  readonly use?: 'writers' | 'members' | 'inspection';
}

/** Where a page is offered to who is here; undefined: nowhere, though its address opens it. */
export function offeredTo({ offered, use }: View, now: Session | null): View['offered'] {
  const link = now?.link === true;
  if (use === 'writers' && roleOf(now) === 'inspector') return undefined;
  if (use === 'members' && link) return undefined;
  return use === 'inspection' && link ? 'bar' : offered;
}

/** The pages there are, for those of them that list the others. */
export const Views = createContext<readonly View[]>([]);
