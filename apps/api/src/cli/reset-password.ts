import { openDatabase } from '@curebook/database/open-database'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { createInterface } from 'node:readline/promises'
import { createSystemClock } from '#platform/clock'
import { checkNewPassword } from '#platform/password-rules'
import { readConfig } from '../config.ts'
import { createServices } from '../services.ts'

/**
 * Sets a new password for an account whose password was lost, or was wrong too often: for whoever runs the server. The
 * password is read from standard input, so that no list of processes shows it; every device is signed out.
 */
async function run(email: string | undefined): Promise<void> {
  if (email === undefined)
    throw new Error('Name the account: reset-password <e-mail address>, with the new password on standard input.')
  const config = readConfig()
  const database = await openDatabase(config.secrets)
  const services = createServices({ database, clock: createSystemClock(), methods: builtInMethods, config })
  try {
    const account = await services.auth.accountByEmail(email)
    if (!account) throw new Error(`There is no account ${email}.`)
    const lines = createInterface({ input: process.stdin })
    process.stderr.write(`New password for ${account.email}: `)
    const { value: password = '' } = (await lines[Symbol.asyncIterator]().next()) as { value?: string }
    lines.close()
    checkNewPassword('password', password, [account.email, account.name])
    await services.auth.setPassword(account.id, password, undefined)
    process.stdout.write(`\nThe password of ${account.email} is new, and every device is signed out.\n`)
  } finally {
    await services.close()
    await database.close()
  }
}

run(process.argv[2]).catch((error: Error) => {
  process.stderr.write(`\n${error.message}\n`)
  process.exitCode = 1
})
