import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'

// Rows of one millisecond come in any order where only their times are compared: today as written, after a vacuum or under
// another plan not. Whatever is taken or listed by a time has something behind it that tells rows apart.

const root = path.join(import.meta.dirname, '../../apps/api/src')
const sources = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter(
  (file) => file.endsWith('.ts') && !file.endsWith('.test.ts'),
)

/** An order whose last word is a time or a day, in SQL and for the generated client. */
const endsInTime =
  /(?:^|[ .("])(?:\w*_at|at|\w*At|done_on|doneOn|\w*_from|\w*From|\w*_day|day)"?(?: (?:asc|desc))?(?: nulls (?:first|last))?$/

/** The text of each `order by`, up to where its clause ends. */
function sqlOrders(text: string): string[] {
  return [...text.matchAll(/order by /g)].map(({ index, 0: words }) => {
    let depth = 0
    let end = index + words.length
    for (; end < text.length; end += 1) {
      const sign = text[end]!
      if (sign === '(') depth += 1
      if (sign === ')' && (depth -= 1) < 0) break
      if (sign === '`' || sign === "'" || (sign === '\n' && depth === 0)) break
      if (depth === 0 && /^ (?:limit|for update|rows) /.test(text.slice(end, end + 12))) break
    }
    return text.slice(index + words.length, end).trim()
  })
}

/** Each `orderBy` of the generated client as `a, b desc`. */
function clientOrders(text: string): string[] {
  return [...text.matchAll(/orderBy: (\[[^\]]*\]|\{[^}]*\})/g)].map(([, order]) =>
    [...order!.matchAll(/(\w+): '(asc|desc)'/g)].map(([, column, way]) => `${column} ${way}`).join(', '),
  )
}

test('nothing is ordered by a time alone', () => {
  const orders = sources.flatMap((file) => {
    const text = readFileSync(path.join(root, file), 'utf8')
    return [...sqlOrders(text), ...clientOrders(text)].map((order) => ({ file, order }))
  })
  expect(orders.length).toBeGreaterThan(150)
  expect(orders.filter(({ order }) => endsInTime.test(order))).toEqual([])
})
