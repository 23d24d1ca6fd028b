import type { DataSource } from 'typeorm';

/** Everything the migrations made, in words, sorted: two databases are alike where these are. */
export async function schemaOf(database: DataSource): Promise<string[]> {
  const rows: { what: string }[] = await database.query(`
    SELECT format('column %s.%s %s %s %s', c.relname, a.attname, format_type(a.atttypid, a.atttypmod), a.attnotnull,
                  pg_get_expr(d.adbin, d.adrelid)) AS what
      FROM pg_attribute a JOIN pg_class c ON c.oid = a.attrelid
      LEFT JOIN pg_attrdef d ON d.adrelid = c.oid AND d.adnum = a.attnum
     WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r' AND a.attnum > 0 AND NOT a.attisdropped
    UNION ALL
    SELECT format('table %s %s %s %s', relname, relrowsecurity, relforcerowsecurity, relacl)
      FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r'
    UNION ALL
    SELECT format('constraint %s %s %s', conrelid::regclass, conname, pg_get_constraintdef(oid))
      FROM pg_constraint WHERE connamespace = 'public'::regnamespace AND contype <> 'n'
    UNION ALL
    SELECT pg_get_indexdef(i.indexrelid) FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid
     WHERE c.relnamespace = 'public'::regnamespace
    UNION ALL
    SELECT format('policy %s %s %s %s %s %s', polrelid::regclass, polname, polcmd, polroles::regrole[],
                  pg_get_expr(polqual, polrelid), pg_get_expr(polwithcheck, polrelid)) FROM pg_policy
    UNION ALL
    SELECT pg_get_triggerdef(oid) || ' ' || tgenabled::text FROM pg_trigger WHERE NOT tgisinternal
    UNION ALL
    SELECT pg_get_functiondef(p.oid) || coalesce(p.proacl::text, '') FROM pg_proc p
     WHERE pronamespace = 'public'::regnamespace
     ORDER BY 1`);
  return rows.map(({ what }) => what);
}
