import { PostgresStore } from '@rotorsoft/act-pg';

/** Where the event store beside which is measured has its tables. */
export const eventSchema = 'library';

/** A general event store from npm on the database that a connection string names, under that login. */
export function eventStore(connection: string): PostgresStore {
  const { hostname, port, username, password, pathname } = new URL(connection);
  return new PostgresStore({
    host: hostname,
    port: Number(port),
    user: decodeURIComponent(username),
    password: decodeURIComponent(password),
    database: pathname.slice(1),
    schema: eventSchema,
    table: 'event',
  });
}
