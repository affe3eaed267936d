import { nodeVersionProblem } from './node-version.js'

// Nothing else is loaded before the version is known to fit: an older Node may not even read the other files.
const problem = nodeVersionProblem(process.versions.node)
if (problem) {
  process.stderr.write(`${problem}\n`)
  process.exitCode = 1
} else {
  const { start } = await import('./start-product.js')
  await start(process.argv.slice(2))
}
