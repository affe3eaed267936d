import { nodeVersionProblem } from './node-version.js'

const problem = nodeVersionProblem(process.versions.node)
if (problem) {
  process.stderr.write(`${problem}\n`)
  process.exitCode = 1
} else {
  const { test } = await import('./test-product.js')
  await test(process.argv.slice(2))
}
