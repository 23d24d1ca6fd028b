import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { z } from 'zod';

/** What a release left behind, told beside its database. */
export const told = z.object({
  release: z.string(),
  /** When it was made; the service that takes it over starts there, so that no way in has run out meanwhile. */
  madeAt: z.string(),
  operationId: z.string(),
  tokens: z.object({ manager: z.string(), recorder: z.string(), phone: z.string(), link: z.string() }),
  login: z.string(),
  password: z.string(),
  /** The checkpoint that the release signed last: the log as somebody outside keeps it. */
  checkpoint: z.string(),
  key: z.string(),
  /** SHA-256 of the entries as they were handed out, one a line. */
  entries: z.string(),
  batches: z.array(z.object({ batchId: z.string(), code: z.string() })),
});
export type Told = z.output<typeof told>;

/** The signing key of these logs is known to everybody, and signs nothing but what the tests are about. */
export const seed = `${createHash('sha256').update('the log of a release').digest('base64')}\n`;

const here = (name: string): URL => new URL(name, import.meta.url);

/** Every release whose database is kept here. */
export function releases(): string[] {
  return readdirSync(here('.'))
    .filter((name) => name.endsWith('.sql.gz'))
    .map((name) => name.slice(0, -'.sql.gz'.length))
    .sort();
}

/** The release's database as SQL, and what is told of it. */
export function keptFrom(release: string): { readonly sql: string; readonly told: Told } {
  return {
    sql: gunzipSync(readFileSync(here(`${release}.sql.gz`))).toString('utf8'),
    told: told.parse(JSON.parse(readFileSync(here(`${release}.json`), 'utf8'))),
  };
}
