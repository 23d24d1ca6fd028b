import type { Farm } from './farm.ts';

/** Every screen of the app but those that need a thing of their own: of the phone, then of the desk. */
export const screens = ({ ids }: Farm): readonly string[] => [...phoneScreens(ids), ...deskScreens(ids)];

/** The screens at the tank. */
export const phoneScreens = (ids: Farm['ids']): readonly string[] => [
  '/',
  `/tank/${ids.brewing}`,
  `/tank/${ids.aerating}`,
  `/tank/${ids.brewing}/record/oxygen`,
  `/tank/${ids.aerating}/record/ingredient`,
  `/tank/${ids.holding}/record/apply`,
  `/tank/${ids.brewing}/record/look`,
  '/start',
  '/batches',
  `/batch/${ids.finished}`,
  `/batch/${ids.holding}`,
  '/waiting',
  '/phone-alerts',
  '/hand',
  '/more',
  '/no/such/page',
];

const deskScreens = (ids: Farm['ids']): readonly string[] => [
  '/findings',
  '/reviews',
  `/trace/lot/${ids.fish1}`,
  '/lots',
  `/lot/${ids.worm1}`,
  '/fields',
  `/field/${ids.north}`,
  '/inspection',
  '/reports',
  '/plan',
  '/rules',
  '/registers',
  '/intake',
  '/access',
  '/alerts',
  '/keeping',
  '/setup',
];
