import { join } from 'node:path';
import type { ServiceOptions } from '../service.ts';

/** Where `data/` and `out/` lie: FURROWMARK_HOME, else the checkout (the bootstrap says where that is). */
export function home(): string {
  return process.env['FURROWMARK_HOME'] ?? process.cwd();
}

/** What every verb that opens the service opens: the database that the settings name, else the embedded one. */
export function settings(): Pick<
  ServiceOptions,
  'dataDir' | 'databaseUrl' | 'reportsDatabaseUrl' | 'databasePatience' | 'recordsInMemory' | 'mail'
> {
  const databaseUrl = process.env['DATABASE_URL'];
  const reportsDatabaseUrl = process.env['REPORTS_DATABASE_URL'] || undefined;
  const [url, from] = [process.env['SMTP_URL'] ?? '', process.env['SMTP_FROM'] ?? ''];
  const mail = url === '' ? undefined : { url, from };
  const patience = Number(process.env['DATABASE_PATIENCE_SECONDS'] ?? '');
  if (!(patience >= 0)) throw new Error('DATABASE_PATIENCE_SECONDS is a number of seconds.');
  const databasePatience = patience === 0 ? undefined : patience * 1_000;
  const records = Number(process.env['RECORDS_IN_MEMORY'] ?? '');
  if (!Number.isInteger(records) || records < 0) throw new Error('RECORDS_IN_MEMORY is a number of records.');
  return {
    recordsInMemory: records === 0 ? undefined : records,
    ...{ mail, reportsDatabaseUrl },
    databasePatience,
    dataDir: join(home(), 'data'),
    databaseUrl: databaseUrl === '' ? undefined : databaseUrl,
  };
}
