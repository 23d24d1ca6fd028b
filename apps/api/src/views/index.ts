export { Seasons, type Held } from './seasons.ts';
