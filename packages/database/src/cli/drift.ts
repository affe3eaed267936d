import { diffToSchema, readSchema } from '../schema-engine.ts'
import { withScratchDatabase } from '../scratch-database.ts'
import { StartError } from '../start-error.ts'
import { runCommand } from './run-command.ts'

/** `npm run db:drift`: fails when the migrations do not lead to the schema, and shows what is between them. */
await runCommand(async () => {
  const sql = await withScratchDatabase(async (ownerUrl) => diffToSchema(ownerUrl, await readSchema()))
  if (sql !== '')
    throw new StartError(
      `The migrations do not lead to the schema. What is missing (npm run db:diff -- <verb_phrase> writes it):\n${sql}`,
    )
  process.stdout.write('The migrations lead to the schema.\n')
})
