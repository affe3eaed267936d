import type pg from 'pg'

/** Takes away all of the product's tables and functions; the database and the logins stay. For databases without work in them. */
export async function dropTables(client: pg.Client): Promise<void> {
  await client.query('drop schema public cascade; drop schema if exists graphile_worker cascade; create schema public')
}
