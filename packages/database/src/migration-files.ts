import { createHash } from 'node:crypto'
import { readFile, readdir } from 'node:fs/promises'
import path from 'node:path'
import { fileURLToPath } from 'node:url'

/** A migration as it lies in prisma/migrations; the checksum is the SHA-256 of the file, in hex. */
export type Migration = { name: string; sql: string; checksum: string }

export const projectRoot = fileURLToPath(new URL('../../../', import.meta.url))
export const migrationsFolder = path.join(projectRoot, 'prisma', 'migrations')
export const schemaFolder = path.join(projectRoot, 'prisma', 'schema')

/** Every migration of the folder in the order of their names, which begin with their time. */
export async function readMigrations(folder = migrationsFolder): Promise<Migration[]> {
  const entries = await readdir(folder, { withFileTypes: true })
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name)
  return Promise.all(
    names.sort().map(async (name) => {
      const bytes = await readFile(path.join(folder, name, 'migration.sql'))
      return { name, sql: bytes.toString('utf8'), checksum: createHash('sha256').update(bytes).digest('hex') }
    }),
  )
}

/** One hash over all migrations: two databases with the same are made alike. */
export function digestOfMigrations(migrations: Migration[]): string {
  return createHash('sha256')
    .update(migrations.map(({ name, checksum }) => `${name} ${checksum}\n`).join(''))
    .digest('hex')
}
