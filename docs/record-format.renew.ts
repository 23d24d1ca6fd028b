// Writes the list of record types at the end of record-format.md anew, from the schemas.
// Run from the top of the repository: node --import ./apps/api/register.mjs docs/record-format.renew.ts
import { readFileSync, writeFileSync } from 'node:fs';
import { describeTypes } from '../libs/domain/src/records/describe.ts';

const page = new URL('record-format.md', import.meta.url);
const text = readFileSync(page, 'utf8');
const list = text.indexOf('### `');
writeFileSync(page, `${list < 0 ? text : text.slice(0, list)}${describeTypes()}`);
