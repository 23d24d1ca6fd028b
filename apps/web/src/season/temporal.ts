import type { Temporal as Standard } from 'temporal-polyfill';

// Takes the place of the stand-in in the browser's build: where the browser has Temporal itself, none is loaded.
const own: unknown = Reflect.get(globalThis, 'Temporal');
const found: unknown = own ?? (await import('temporal-polyfill/implementation')).Temporal;

export const Temporal = found as typeof Standard; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- the standard's own object, or the stand-in for it
