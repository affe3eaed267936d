import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { parse, sourcedMakers, unsourcedNumbers } from './unsourced-numbers.ts'

// Every factor, limit and window of the trade names its source beside it. What stands in an edition or a specification is
// held to that by methods/sources.test.ts; this walks all that is written in between.
const trade = fileURLToPath(new URL('../../packages/trade/src/', import.meta.url))
const files = readdirSync(trade, { recursive: true })
  .map((name) => String(name).replaceAll('\\', '/'))
  .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
  .map((name) => parse(name, readFileSync(trade + name, 'utf8')))
const makers = sourcedMakers(files)

const foundIn = (text: string, name = 'methods/planted.ts') => {
  const planted = parse(name, text)
  return unsourcedNumbers(planted, sourcedMakers([...files, planted])).map(({ digits }) => digits)
}

test('every number in the trade’s code has its source beside it', () => {
  expect(files.length).toBeGreaterThan(150)
  const found = files.flatMap((file) => unsourcedNumbers(file, makers))
  expect(found.map(({ file, line, digits }) => `${file}:${line}: ${digits} has no source beside it`)).toEqual([])
})

describe('a planted number is found', () => {
  test.each([
    ['a factor as a decimal string', "const factor = decimal('12.5')", '12.5'],
    ['a limit that is compared with', "if (loss.gt('538')) refuse()", '538'],
    ['a factor in the arithmetic of a function', 'const total = (mass: number) => mass * 3.06', '3.06'],
    ['a window as a number', 'const latestMs = 75 * minute', '75'],
    ['one in an object without a source', "const cure = { earliest: '15', unit: 'h' }", '15'],
    ['one in a default', "function share(of: string, residue = '62') { return times(of, residue) }", '62'],
    ['one under a comment that names nothing', "// As everybody does it.\nconst cure = '15'", '15'],
    ['one in a function after a sourced one', "/** ISSA TB-100 (2018). */\nconst a = '15'\n\nconst b = '16'", '16'],
    [
      'one given to what holds a source of its own',
      "const f = (x: string) => ({ source: 'ISSA', y: 1 })\n\nf('7')",
      '7',
    ],
    ['one in a method file whose first line speaks for it', '// Numbers of this file: exact.\n\nconst a = 7', '7'],
  ])('%s', (_, text, digits) => {
    expect(foundIn(text)).toContain(digits)
  })

  test('in a real file', () => {
    const name = 'methods/weighed-difference.ts'
    const text = readFileSync(trade + name, 'utf8')
    expect(foundIn(text, name)).toEqual([])
    expect(foundIn(`${text}\nexport const lossFactor = '3.06'\n`, name)).toEqual(['3.06'])
  })
})

describe('a number with its source is let pass', () => {
  test.each([
    ['a comment above', "// ISSA TB-100 (2018), clause 4.\nconst factor = decimal('12.5')"],
    ['a comment beside', "const factor = decimal('12.5') // common practice, no source"],
    [
      'the comment of its declaration',
      "/** From memory, unverified. */\nconst factors = {\n  a: '12.5',\n  b: '13.5',\n}",
    ],
    ['an exact relation', 'const dayMs = 86_400_000 // exactly'],
    ['a source in the same object', "const cure = { from: '15', to: '18', source: practiceSource }"],
    ['a bound of an edition', "const cure = published('ISSA TB-109 (2018)', '3.2', '12', 'h', 'Cure')"],
    ['what makes one', "const tb = (v: string) => remembered('ISSA TB-100', v, 'h', 'Cure')\nconst cure = tb('15')"],
    ['a line of a working', "work.product({ symbol: 'L', source }, 'm', '29.9')"],
    ['counting', "const parts = ['0', '1', '2', '10', '100']"],
    ['places in a text and digits shown', 'const a = text.slice(3, 7)\nconst b = { displayDecimals: 3 }'],
  ])('%s', (_, text) => {
    expect(foundIn(text)).toEqual([])
  })
})
