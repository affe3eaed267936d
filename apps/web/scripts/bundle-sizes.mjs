/**
 * First-load JavaScript of each page, compressed, from the last build, with the budget of each page that has one:
 * `node apps/web/scripts/bundle-sizes.mjs`. Ends with 1 when a page is over its budget.
 */
import { readFileSync, existsSync } from 'node:fs'
import { gzipSync } from 'node:zlib'

const BUDGETS_KB = { '/l/[short]/bench': 200 }
const web = new URL('../', import.meta.url)
const stats = new URL('.next/diagnostics/route-bundle-stats.json', web)
if (!existsSync(stats)) {
  console.error('There is no build yet. Run: npx next build apps/web')
  process.exit(1)
}

const sizes = new Map()
function compressedSize(chunk) {
  if (!sizes.has(chunk))
    sizes.set(chunk, gzipSync(readFileSync(new URL(chunk.replace(/^.*?\.next\//, '.next/'), web)), { level: 9 }).length)
  return sizes.get(chunk)
}

let over = false
for (const { route, firstLoadChunkPaths } of JSON.parse(readFileSync(stats, 'utf8'))) {
  const kilobytes = firstLoadChunkPaths.reduce((sum, chunk) => sum + compressedSize(chunk), 0) / 1000
  const budget = BUDGETS_KB[route]
  const verdict = budget === undefined ? '' : kilobytes <= budget ? `within ${budget}` : `OVER ${budget}`
  over ||= verdict.startsWith('OVER')
  console.log(`${kilobytes.toFixed(1).padStart(7)} kB  ${route}  ${verdict}`)
}
process.exitCode = over ? 1 : 0
