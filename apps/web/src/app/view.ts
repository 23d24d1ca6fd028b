import { createContext, type ComponentType, type LazyExoticComponent } from 'react';

/** One page. `path` is wouter's: `/batch/:id`; its parameters come with `useParams()`. */
export interface View {
  readonly path: string;
  readonly page: ComponentType | LazyExoticComponent<ComponentType>;
  /** Fetches the page, so that it is there at once when it is opened. */
  getReady(): Promise<void>;
  /** Where it is offered: in the bar of the phone's thumb, or under “More” (and in the desk's list). Absent: only linked. */
  readonly offered?: 'bar' | 'more';
  readonly label?: { readonly en: string; readonly es: string };
}

/** The pages there are, for those of them that list the others. */
export const Views = createContext<readonly View[]>([]);
