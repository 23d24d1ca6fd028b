#!/usr/bin/env node
import { run } from './run.ts';

const { code, output } = await run(process.argv.slice(2), Date.now());
process.stdout.write(output);
process.exitCode = code;
