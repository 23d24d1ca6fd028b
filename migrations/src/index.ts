import { Roles1764000000001 } from './0001-roles.ts';
import { Access1764000000002 } from './0002-access.ts';
import { Log1764000000003 } from './0003-log.ts';
import { PersonalValues1764000000004 } from './0004-personal-values.ts';
import { Mentions1764000000005 } from './0005-mentions.ts';
import { Views1764000000006 } from './0006-views.ts';

/** Every migration ever released, oldest first. A released one never changes; the schema goes forward only. */
export const migrations = [
  Roles1764000000001,
  Access1764000000002,
  Log1764000000003,
  PersonalValues1764000000004,
  Mentions1764000000005,
  Views1764000000006,
] as const;
