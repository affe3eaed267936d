import { stat } from 'node:fs/promises'
import path from 'node:path'
import { backup } from '../backup.ts'
import { openOwner } from '../open-owner.ts'
import { digestOfTables } from '../restore.ts'
import { StartError } from '../start-error.ts'
import { runCommand } from './run-command.ts'

/** `npm run backup [-- <file>]`: everything that is kept, in one file. */
await runCommand(async () => {
  const now = new Date()
  const file = path.resolve(
    process.argv[2] ?? `curebook-${now.toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}.backup`,
  )
  if (await stat(file).catch(() => undefined)) throw new StartError(`${file} is there already. Name another file.`)
  const owner = await openOwner()
  try {
    const tables = await backup(owner.ownerUrl, file, now)
    const rows = tables.reduce((sum, table) => sum + table.rows, 0)
    process.stdout.write(
      `${file}\n${tables.length} tables, ${rows} rows, digest ${digestOfTables(tables)}; read back and the same\n`,
    )
    process.stdout.write(
      `Keep ${path.join(owner.dataFolder, 'secrets.json')} too, apart from it: without it people sign in anew and second factors are set up anew.\n`,
    )
  } finally {
    await owner.close()
  }
})
