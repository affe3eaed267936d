import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { digestOfFiles } from './digest-of-files.js'
import { root } from './project.js'
import { runCommand } from './run-command.js'

const folder = join(root, 'packages', 'database', 'src', 'generated')
const stamp = join(folder, 'made-from')

/** Makes the database client from prisma/schema unless the one that is there was made from the same. */
export async function generateClient() {
  const digest = digestOfFiles(['prisma/schema', 'prisma.config.ts', 'packages/database/package.json'])
  if (existsSync(join(folder, 'client.ts')) && existsSync(stamp) && readFileSync(stamp, 'utf8') === digest)
    return 'nothing to do'
  // The command looks for an engine that only migrations of its own need, and would download one; any program satisfies it.
  const env = { PRISMA_SCHEMA_ENGINE_BINARY: '/bin/true', CHECKPOINT_DISABLE: '1', PRISMA_HIDE_UPDATE_MESSAGE: '1' }
  await runCommand(process.execPath, [join(root, 'node_modules', 'prisma', 'build', 'index.js'), 'generate'], {
    env,
    failure: 'The database client could not be made from prisma/schema.',
  })
  writeFileSync(stamp, digest)
  return ''
}
