import { pathToFileURL } from 'node:url'
import path from 'node:path'
import type { TestProject } from 'vitest/node'
import { projectRoot } from '../../packages/database/src/migration-files.ts'
import { unpackBrowser } from './browser.ts'
import shareCluster from './global-database.ts'

type BuildPages = { buildPages: () => Promise<string> }

/**
 * Before the first journey: the pages are built, unless those that are there were built from the same sources, the browser is
 * unpacked, and a cluster stands whose databases the journeys' servers work on (journey-product.ts).
 */
export default async function setup(project: TestProject) {
  const starter = pathToFileURL(path.join(projectRoot, 'packages/start/src/build-pages.js'))
  const { buildPages } = (await import(starter.href)) as BuildPages
  await buildPages()
  await unpackBrowser()
  return shareCluster(project)
}
