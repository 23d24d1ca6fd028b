import type { QueryRunner } from 'typeorm';

/** Runs SQL statements one after the other, in the migration's transaction. */
export async function run(queryRunner: QueryRunner, statements: readonly string[]): Promise<void> {
  for (const statement of statements) await queryRunner.query(statement);
}

/** Migrations go forward only: what was recorded under a newer schema must not be forced into an older one. */
export function forwardOnly(name: string): Promise<never> {
  return Promise.reject(new Error(`${name} goes forward only; restore a backup taken before it instead`));
}

/** True for rows of the operation that the transaction has named; a pooled connection that named none sees nothing. */
export const ofThisOperation = `operation_id = nullif(current_setting('app.operation_id', true), '')::uuid`;

/** Row-level security on the operation, for the table's owner too. */
export function onlyThisOperation(table: string): readonly string[] {
  return [
    `ALTER TABLE ${table} ENABLE ROW LEVEL SECURITY`,
    `ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`,
    `CREATE POLICY this_operation ON ${table} USING (${ofThisOperation}) WITH CHECK (${ofThisOperation})`,
  ];
}

/** True for rows of the account that the transaction has named. */
export const ofThisAccount = `account_id = nullif(current_setting('app.account_id', true), '')::uuid`;

/** Row-level security by one more condition; the rows of several such conditions are seen together. */
export function rowsWhere(table: string, policy: string, condition: string): readonly string[] {
  return [
    `ALTER TABLE ${table} ENABLE ROW LEVEL SECURITY`,
    `ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`,
    `CREATE POLICY ${policy} ON ${table} USING (${condition}) WITH CHECK (${condition})`,
  ];
}

/** Refuses every change of what is there, for the owner as well. */
export function appendOnly(table: string): readonly string[] {
  return [
    `CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON ${table}
       FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()`,
    `ALTER TABLE ${table} ENABLE ALWAYS TRIGGER append_only`,
  ];
}
