import { runMigrations } from 'graphile-worker'
import type pg from 'pg'
import { loginNames } from './logins.ts'

/**
 * Installs the tables of the job queue, which need the owner, and lets the application's login work jobs off. Adding one goes
 * through the function `enqueue` of our own migrations. A job carries ids, never content: it belongs to no laboratory.
 */
export async function ensureJobQueue(client: pg.Client, ownerUrl: string): Promise<void> {
  await runMigrations({ connectionString: ownerUrl, maxPoolSize: 1 })
  const { rows } = await client.query<{ name: string }>(
    `select c.relname as name from pg_class c where c.relnamespace = 'graphile_worker'::regnamespace and c.relkind = 'r' and c.relrowsecurity
      and not exists (select from pg_policy p where p.polrelid = c.oid)`,
  )
  const policies = rows.map(
    ({ name }) =>
      `create policy worker on graphile_worker.${name} for all to ${loginNames.app} using (true) with check (true);`,
  )
  await client.query(`
    do $$ begin
      if not exists (select from pg_roles where rolname = '${loginNames.app}') then create role ${loginNames.app} nologin; end if;
    end $$;
    grant usage on schema graphile_worker to ${loginNames.app};
    grant select, insert, update, delete on all tables in schema graphile_worker to ${loginNames.app};
    grant usage on all sequences in schema graphile_worker to ${loginNames.app};
    grant execute on all functions in schema graphile_worker to ${loginNames.app};
    revoke insert, update, delete on graphile_worker.migrations from ${loginNames.app};
    ${policies.join('\n')}`)
}
