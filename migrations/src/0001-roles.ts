import type { MigrationInterface, QueryRunner } from 'typeorm';
import { forwardOnly, run } from './statements.ts';

const role = (name: string): string => `
  DO $$ BEGIN
    CREATE ROLE ${name} NOLOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE NOBYPASSRLS;
  EXCEPTION WHEN duplicate_object OR unique_violation THEN NULL;
  END $$`;

/** Two roles without a login: what the service may do, and what someone who only reads may do. */
export class Roles1764000000001 implements MigrationInterface {
  readonly name = 'Roles1764000000001';

  up(queryRunner: QueryRunner): Promise<void> {
    return run(queryRunner, [
      role('furrowmark_service'),
      role('furrowmark_reader'),
      `REVOKE ALL ON SCHEMA public FROM PUBLIC`,
      `GRANT USAGE ON SCHEMA public TO furrowmark_service, furrowmark_reader`,
      `GRANT SELECT ON schema_migration TO furrowmark_service, furrowmark_reader`,
    ]);
  }

  down(): Promise<never> {
    return forwardOnly(this.name);
  }
}
