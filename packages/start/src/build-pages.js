import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
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
  listFiles()
  writeFileSync(stamp, digest)
  return ''
}

/** Names every file of the build for the tablets, which hold them for work without a network (public/tablet-worker.js). */
function listFiles() {
  const folder = join(web, '.next', 'static')
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .map((path) => `/_next/static/${path.split('/').map(encodeURIComponent).join('/')}`)
  writeFileSync(join(folder, 'files.json'), JSON.stringify(files.sort()))
}
