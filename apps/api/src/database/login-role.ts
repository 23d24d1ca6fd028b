import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import type { DataSource } from 'typeorm';
import { z } from 'zod';
import { privateFile } from './private-file.ts';

const login = z.object({
  role: z.string().regex(/^furrowmark_[0-9a-f]{12}$/),
  secret: z.string().regex(/^[0-9a-f]{48}$/),
});

/**
 * The service's own login, with a secret made on the first start and kept in the data folder: INSERT and SELECT on the
 * log, no ownership, no way past row-level security. Gives the connection string that uses it.
 */
export async function serviceLogin(owner: DataSource, ownerUrl: string, dataDir: string): Promise<string> {
  const text = await privateFile(join(dataDir, 'service-login.json'), () =>
    JSON.stringify({ role: `furrowmark_${randomBytes(6).toString('hex')}`, secret: randomBytes(24).toString('hex') }),
  );
  const { role, secret } = login.parse(JSON.parse(text));
  // Both names hold only letters, digits and underscores (checked above), so they can stand in the statement.
  const rights = `LOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE NOREPLICATION NOBYPASSRLS PASSWORD '${secret}'`;
  await owner.query(`
    DO $$ BEGIN
      CREATE ROLE ${role} ${rights};
    EXCEPTION WHEN duplicate_object OR unique_violation THEN
      ALTER ROLE ${role} LOGIN PASSWORD '${secret}';
    END $$`);
  await owner.query(`GRANT furrowmark_service TO ${role}`);
  await owner.query(`
    DO $$ BEGIN
      EXECUTE format('REVOKE CONNECT, TEMPORARY ON DATABASE %I FROM PUBLIC', current_database());
      EXECUTE format('GRANT CONNECT ON DATABASE %I TO furrowmark_service, furrowmark_reader', current_database());
    EXCEPTION WHEN insufficient_privilege THEN NULL; -- somebody else's database: its owner decides who may connect
    END $$`);
  const url = new URL(ownerUrl);
  url.username = role;
  url.password = secret;
  return url.toString();
}
