import { join } from 'node:path';

/** Where `data/` and `out/` lie: FURROWMARK_HOME, else the checkout (the bootstrap says where that is). */
export function home(): string {
  return process.env['FURROWMARK_HOME'] ?? process.cwd();
}

/** What every verb that opens the service opens: the database that the settings name, else the embedded one. */
export function settings(): { readonly dataDir: string; readonly databaseUrl: string | undefined } {
  const databaseUrl = process.env['DATABASE_URL'];
  return { dataDir: join(home(), 'data'), databaseUrl: databaseUrl === '' ? undefined : databaseUrl };
}
