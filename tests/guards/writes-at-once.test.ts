import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { hasTest } from '../statements/has-test.ts'
import { withoutReading, writesAtOnce } from './writes-at-once.ts'

// Every write that reads first has a test with two real connections: which one stands in `writes-at-once.ts`.

const root = fileURLToPath(new URL('../..', import.meta.url))
const features = path.join(root, 'apps/api/src/features')
const routes = readdirSync(features, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.routes.ts'))
  .flatMap((file) => [
    ...readFileSync(path.join(features, file), 'utf8').matchAll(/\bapp\.(post|patch|put|delete)\(\s*'([^']+)'/g),
  ])
  .map(([, verb, address]) => `${verb!.toUpperCase()} ${address}`)

test('every route that may write has its line, and every line of a route its route', () => {
  expect(routes.length).toBeGreaterThan(90)
  const told = [...writesAtOnce.map(({ write }) => write), ...Object.keys(withoutReading)]
  expect(new Set(told).size).toBe(told.length)
  expect(routes.filter((route) => !told.includes(route))).toEqual([])
  expect(told.filter((write) => /^[A-Z]+ \//.test(write) && !routes.includes(write))).toEqual([])
})

test('every test that a line names is there', () => {
  const missing = writesAtOnce.flatMap(({ write, tests }) => [
    ...(tests.length === 0 ? [{ write }] : []),
    ...tests
      .filter(({ file, title }) => !hasTest(readFileSync(path.join(root, file), 'utf8'), title))
      .map((shown) => ({ write, ...shown })),
  ])
  expect(missing).toEqual([])
})
