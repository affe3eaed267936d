import path from 'node:path'
import { ensureLogins } from '../logins.ts'
import { openOwner } from '../open-owner.ts'
import { digestOfTables, restore } from '../restore.ts'
import { loginPasswords } from '../secrets.ts'
import { StartError } from '../start-error.ts'
import { runCommand } from './run-command.ts'

/** `npm run restore -- <file>`: a backup into an empty database, compared row for row before it counts. */
await runCommand(async () => {
  const given = process.argv[2]
  if (!given) throw new StartError('Name the backup: npm run restore -- <file>')
  const file = path.resolve(given)
  const owner = await openOwner()
  try {
    if (!process.env.DATABASE_URL_APP) await ensureLogins(owner.ownerUrl, await loginPasswords(owner.dataFolder))
    const { header, tables } = await restore(owner.ownerUrl, file)
    const rows = tables.reduce((sum, table) => sum + table.rows, 0)
    process.stdout.write(
      `Restored the backup of ${header.madeAt}: ${tables.length} tables, ${rows} rows, digest ${digestOfTables(tables)}\n`,
    )
  } finally {
    await owner.close()
  }
})
