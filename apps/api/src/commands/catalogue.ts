import { calc } from './calc.ts';
import type { Command } from './command.ts';
import { demo } from './demo.ts';
import { importRecords } from './import.ts';
import { operation } from './operation.ts';
import { serve } from './serve.ts';

/** Every verb, in the order in which `help` lists them. */
export const catalogue: readonly Command[] = [demo, serve, operation, importRecords, calc];
