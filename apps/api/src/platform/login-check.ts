import type { Pool } from 'pg'

type Login = { name: string; superuser: boolean; bypasses: boolean; owns: string | null }

/** Throws when a server's login could pass a row-level policy by: superuser, BYPASSRLS, or (a member of) a tenant table's owner. */
export async function refuseMightyLogin(pool: Pool, variable: string): Promise<void> {
  const { rows } = await pool.query<Login>(`
    select r.rolname as name,
      exists (select from pg_roles m where m.rolsuper and pg_has_role(current_user, m.oid, 'member')) as superuser,
      exists (select from pg_roles m where m.rolbypassrls and pg_has_role(current_user, m.oid, 'member')) as bypasses,
      (select min(c.relname) from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attname = 'lab_id' and not a.attisdropped
        where c.relkind in ('r', 'p') and pg_has_role(current_user, c.relowner, 'member')) as owns
    from pg_roles r where r.rolname = current_user`)
  const { name, superuser, bypasses, owns } = rows[0]!
  const might = superuser ? 'is a superuser' : bypasses ? 'has BYPASSRLS' : owns ? `owns the table ${owns}` : undefined
  if (might) {
    throw new Error(
      `The login “${name}” of ${variable} ${might} and could see every laboratory. Give the server a login without that right; the starter makes one.`,
    )
  }
}
