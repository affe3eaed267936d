import { readFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { benchStatements } from './bench.ts'
import { engineerStatements } from './engineer.ts'
import { hasTest } from './has-test.ts'
import { scheduleStatements } from './schedule.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const statements = [...benchStatements, ...scheduleStatements, ...engineerStatements]
const numbered = (letter: string, count: number) => Array.from({ length: count }, (_, index) => `${letter}${index + 1}`)

test('every statement stands here once, in order', () => {
  expect(statements.map(({ id }) => id)).toEqual([...numbered('T', 39), ...numbered('M', 16), ...numbered('E', 17)])
  expect(statements.filter(({ says }) => says.trim() === '')).toEqual([])
})

test('every statement has a test, and every test and measurement named is there', () => {
  const sources = new Map<string, string>()
  const sourceOf = (file: string) => {
    if (!sources.has(file)) sources.set(file, readFileSync(path.join(root, file), 'utf8'))
    return sources.get(file)!
  }
  expect(statements.filter(({ tests }) => tests.length === 0).map(({ id }) => id)).toEqual([])
  const missing = statements.flatMap(({ id, tests }) =>
    tests.filter(({ file, title }) => !hasTest(sourceOf(file), title)).map((shown) => ({ id, ...shown })),
  )
  expect(missing).toEqual([])
  const unmeasured = statements.flatMap(({ measured = [] }) =>
    measured.filter(({ file, title }) => !new RegExp(`\\bsay\\(\\s*['\`]${title}`).test(sourceOf(file))),
  )
  expect(unmeasured).toEqual([])
})

test('a title that is only written, skipped or of a group is no test', () => {
  // Put together from parts, so that no line of this file looks like such a test to the check of the tree.
  const marked = (call: string, mark: string) => `${[call, mark].join('.')}('stays', () => {`
  for (const source of [
    "// 'stays'",
    "describe('stays', () => {",
    marked('test', 'skip'),
    marked('it', 'todo'),
    "test('stays put', () => {",
  ])
    expect(hasTest(source, 'stays'), source).toBe(false)
  for (const source of ["test('stays', () => {", "  it(\n 'stays',\n () => {", "test.each([1])('stays', () => {"])
    expect(hasTest(source, 'stays'), source).toBe(true)
})
