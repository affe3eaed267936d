import { Client } from 'pg'
import type { Product } from './journey-product.ts'

/** Rows as the database holds them, past every service: what a journey's screens must not be believed about. */
export async function rowsOf<Row extends object>(
  { database }: Product,
  statement: string,
  values: readonly unknown[] = [],
): Promise<Row[]> {
  const client = new Client({ connectionString: database.ownerUrl })
  await client.connect()
  try {
    return (await client.query<Row>(statement, [...values])).rows
  } finally {
    await client.end()
  }
}
