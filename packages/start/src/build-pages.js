import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { digestOfFiles } from './digest-of-files.js'
import { root } from './project.js'
import { runCommand } from './run-command.js'

const web = join(root, 'apps', 'web')
const stamp = join(web, '.next', 'made-from')
const sources = [
  'apps/web',
  'packages/contract',
  'packages/trade',
  'packages/config/tsconfig.base.json',
  'package-lock.json',
]

/** Builds the pages unless those that are there were built from the same sources. */
export async function buildPages() {
  const digest = digestOfFiles(sources)
  if (existsSync(join(web, '.next', 'BUILD_ID')) && existsSync(stamp) && readFileSync(stamp, 'utf8') === digest)
    return 'nothing to do'
  const env = { NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: 'production' }
  await runCommand(process.execPath, [join(root, 'node_modules', 'next', 'dist', 'bin', 'next'), 'build'], {
    cwd: web,
    env,
    failure: 'The pages could not be built.',
  })
  writeFileSync(stamp, digest)
  return ''
}
