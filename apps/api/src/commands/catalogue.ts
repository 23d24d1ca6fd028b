import { backup } from './backup.ts';
import { calc } from './calc.ts';
import type { Command } from './command.ts';
import { demo } from './demo.ts';
import { exportArchive } from './export.ts';
import { importRecords } from './import.ts';
import { key } from './key.ts';
import { operation } from './operation.ts';
import { outcomes } from './outcomes.ts';
import { person } from './person.ts';
import { rebuild } from './rebuild.ts';
import { report } from './report.ts';
import { restore } from './restore.ts';
import { serve } from './serve.ts';
import { verify } from './verify.ts';

/** Every verb, in the order in which `help` lists them. */
export const catalogue: readonly Command[] = [
  ...[demo, serve, operation, person, importRecords, report],
  ...[exportArchive, verify, key, backup, restore, rebuild, outcomes, calc],
];
