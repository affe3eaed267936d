import { spawn } from 'node:child_process'
import { existsSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { buildPages } from './build-pages.js'
import { checkTree } from './check-tree.js'
import { reportFailure, StartFailure } from './failure.js'
import { generateClient } from './generate-client.js'
import { installPackages } from './install-packages.js'
import { refuseFullDisk } from './preconditions.js'
import { beginStep, step } from './progress.js'
import { inDataFolder, root } from './project.js'
import { endRunning, follow, runCommand, wasInterrupted } from './run-command.js'

const bin = (/** @type {string[]} */ ...path) => join(root, 'node_modules', ...path)
const typescriptCompiler = bin('typescript', 'bin', 'tsc')

/** @type {[string, () => Promise<unknown>][]} */
const checks = [
  ['Checking the tree', async () => checkTree()],
  ['Checking types', () => runNode([typescriptCompiler, '--noEmit', '-p', 'tsconfig.json'])],
  ['Checking types of the pages', () => runNode([typescriptCompiler, '--noEmit', '-p', 'apps/web/tsconfig.json'])],
  ['Checking style', () => runNode([bin('eslint', 'bin', 'eslint.js'), '.'])],
  [
    'Checking imports',
    () =>
      runNode([
        bin('dependency-cruiser', 'bin', 'dependency-cruise.mjs'),
        '--config',
        'packages/config/dependency-cruiser.cjs',
        'apps',
        'packages',
        'tests',
      ]),
  ],
]

/**
 * `npm test`: installs, checks types, style and imports, builds, runs every test, and ends with the sum on one line. With
 * arguments only the tests that they name: `npm test -- --project unit`.
 * @param {string[]} args for vitest
 */
export async function test(args) {
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) process.on(signal, endRunning)
  try {
    refuseFullDisk()
    await step('Installing packages', installPackages)
    await step('Making the database client', generateClient)
    const failedChecks = args.length === 0 ? await runChecks() : 0
    if (args.length === 0 || args.includes('journeys')) await step('Building the pages', buildPages)
    const tests = await runTests(args)
    const passedChecks = args.length === 0 ? checks.length - failedChecks : 0
    if (args.length === 0) process.stdout.write(`\nChecks: ${passedChecks} passed, ${failedChecks} failed\n`)
    process.stdout.write(`Tests: ${tests.passed} passed, ${tests.failed} failed, ${tests.skipped} skipped\n`)
    process.stdout.write(`${tests.passed + passedChecks} passed, ${tests.failed + failedChecks} failed\n`)
    if (tests.failed + failedChecks > 0) process.exitCode = 1
  } catch (error) {
    reportFailure(error)
  }
}

/** Runs every check, also after one failed, and returns how many did. */
async function runChecks() {
  let failed = 0
  for (const [label, work] of checks) {
    const end = beginStep(label)
    try {
      await work()
      end()
    } catch (error) {
      if (wasInterrupted()) throw error
      failed += 1
      end('failed')
      process.stdout.write(`${/** @type {Error} */ (error).message}\n`)
    }
  }
  return failed
}

/** @param {string[]} args */
const runNode = (args) => runCommand(process.execPath, args, { failure: '', lastLines: 200 })

/** @param {string[]} args @returns {Promise<{ passed: number, failed: number, skipped: number }>} */
async function runTests(args) {
  const file = join(inDataFolder('test'), `results-${process.pid}.json`)
  const command = [
    bin('vitest', 'vitest.mjs'),
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${file}`,
    ...args,
  ]
  const child = spawn(process.execPath, command, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, NODE_ENV: 'test', NEXT_TELEMETRY_DISABLED: '1' },
  })
  follow(child)
  const code = await new Promise((resolve) => child.on('close', resolve))
  if (wasInterrupted()) throw new StartFailure('The tests were ended from outside.')
  if (!existsSync(file)) return { passed: 0, failed: 1, skipped: 0 }
  const results = JSON.parse(readFileSync(file, 'utf8'))
  rmSync(file, { force: true })
  // A file that could not be loaded has no test in it that could fail.
  const broken = results.testResults.filter(
    (/** @type {{ status: string, assertionResults: unknown[] }} */ each) =>
      each.status === 'failed' && each.assertionResults.length === 0,
  ).length
  const failed = results.numFailedTests + broken
  return {
    passed: results.numPassedTests,
    failed: code !== 0 && failed === 0 ? 1 : failed,
    skipped: results.numPendingTests + results.numTodoTests,
  }
}
