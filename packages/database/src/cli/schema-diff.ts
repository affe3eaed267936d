import { mkdir, stat, writeFile } from 'node:fs/promises'
import path from 'node:path'
import { migrationsFolder } from '../migration-files.ts'
import { diffToSchema, readSchema } from '../schema-engine.ts'
import { withScratchDatabase } from '../scratch-database.ts'
import { StartError } from '../start-error.ts'
import { runCommand } from './run-command.ts'

/**
 * `npm run db:diff [-- <verb_phrase>]`: prints the SQL that leads from the migrations to the schema, or writes it as the next
 * migration. What the schema language cannot say (policies, grants, triggers, checks) is added to that file by hand.
 */
await runCommand(async () => {
  const sql = await withScratchDatabase(async (ownerUrl) => diffToSchema(ownerUrl, await readSchema()))
  const verb = process.argv[2]
  if (sql === '') process.stdout.write('The migrations lead to the schema: there is nothing to write.\n')
  else if (!verb) process.stdout.write(`${sql}\n`)
  else process.stdout.write(`${await writeMigration(verb, sql)}\n`)
})

async function writeMigration(verb: string, sql: string): Promise<string> {
  if (!/^[a-z][a-z0-9_]*$/.test(verb))
    throw new StartError('Name the migration by a verb phrase in small letters: add_sample_photo.')
  const time = new Date().toISOString().slice(0, 19).replaceAll(/\D/g, '')
  const folder = path.join(migrationsFolder, `${time}_${verb}`)
  if (await stat(folder).catch(() => undefined)) throw new StartError(`${folder} is there already.`)
  await mkdir(folder)
  await writeFile(path.join(folder, 'migration.sql'), `${sql}\n`)
  return path.join(folder, 'migration.sql')
}
