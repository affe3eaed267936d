import { ensureLogins } from '../logins.ts'
import { migrate } from '../migrate.ts'
import { openOwner } from '../open-owner.ts'
import { loginPasswords } from '../secrets.ts'
import { runCommand } from './run-command.ts'

await runCommand(async () => {
  const owner = await openOwner()
  try {
    if (!process.env.DATABASE_URL_APP) await ensureLogins(owner.ownerUrl, await loginPasswords(owner.dataFolder))
    const applied = await migrate(owner.ownerUrl, { onStep: (name) => process.stdout.write(`Applying ${name}\n`) })
    process.stdout.write(
      applied.length === 0 ? 'The database is up to date.\n' : `${applied.length} migrations applied.\n`,
    )
  } finally {
    await owner.close()
  }
})
