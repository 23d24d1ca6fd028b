#!/usr/bin/env node
// The way in: any Node from 18 on starts this file straight after `git clone`. It makes sure that the dependencies
// are installed as package-lock.json says, then hands over to the pinned Node that came with them.
import { installIfNeeded } from './install.mjs';
import { buildWebIfNeeded } from './build-web.mjs';
import { handOver } from './hand-over.mjs';

const [verb = 'help', ...args] = process.argv.slice(2);
try {
  await installIfNeeded();
  if (verb === 'serve' || verb === 'demo') buildWebIfNeeded();
} catch (error) {
  console.error(`furrowmark: ${error instanceof Error ? error.message : String(error)}`);
  process.exit(69);
}
handOver(verb, args);
