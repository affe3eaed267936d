import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readGradation } from './gradation.ts'

const rows = (...pairs: readonly (readonly [string, string])[]) => pairs.map(([size, passing]) => ({ size, passing }))

test('a sieve table is read as typed, decimals with comma or point', () => {
  expect(readGradation(rows(['9,5', '100'], ['4.75', '94.0'], ['0.075', '9,6']))).toEqual({
    ok: true,
    sieves: [
      { size: { typed: '9,5', value: '9.5' }, passing: { typed: '100', value: '100' } },
      { size: { typed: '4.75', value: '4.75' }, passing: { typed: '94.0', value: '94.0' } },
      { size: { typed: '0.075', value: '0.075' }, passing: { typed: '9,6', value: '9.6' } },
    ],
  })
  expect(readGradation([])).toEqual({ ok: true, sieves: [] })
})

test('what cannot be is said beside its row and field', () => {
  expect(readGradation(rows(['4.75', '94'], ['9.5', '90']))).toMatchObject({ row: 1, field: 'size' })
  expect(readGradation(rows(['4.75', '94'], ['4.750', '94']))).toMatchObject({ row: 1, field: 'size' })
  expect(readGradation(rows(['9.5', '94'], ['4.75', '94.1']))).toMatchObject({
    row: 1,
    field: 'passing',
    message: '94.1 % pass 4.75 mm, but only 94 % pass the wider 9.5 mm: look at both again.',
  })
  expect(readGradation(rows(['9.5', '100.1']))).toMatchObject({ row: 0, field: 'passing' })
  expect(readGradation(rows(['9.5', '-1']))).toMatchObject({ row: 0, field: 'passing' })
  expect(readGradation(rows(['0', '1']))).toMatchObject({ row: 0, field: 'size' })
  expect(readGradation(rows(['No. 4', '1']))).toMatchObject({ row: 0, field: 'size' })
})

test('a table is read just where sizes fall and what passes does not rise', () => {
  const pair = fc.tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 0, max: 110 }))
  fc.assert(
    fc.property(fc.array(pair, { maxLength: 6 }), (pairs) => {
      const right = pairs.every(
        ([size, passing], n) => passing <= 100 && (n === 0 || (size < pairs[n - 1]![0] && passing <= pairs[n - 1]![1])),
      )
      expect(readGradation(rows(...pairs.map(([a, b]) => [String(a), String(b)] as const))).ok).toBe(right)
    }),
  )
})
