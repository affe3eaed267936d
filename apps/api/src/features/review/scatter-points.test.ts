import { expect, test } from 'vitest'
import type { FoundPoint } from './review-points.ts'
import { reckonedOfRevision } from './scatter-points.ts'

const point = (key: string): FoundPoint => ({
  ...{ key, kind: 'odd', name: null, code: null, testId: null },
  ...{ sentence: 'Loss per area: 3 results span 90 g/m².', blocking: false },
})
const points = [point('odd:scatter:a'), point('odd:scatter:b')]
const keysOf = (found: readonly FoundPoint[]) => found.map(({ key }) => key)

test('scatter waits for a word until the approval; of an approved revision no more is told than had one', () => {
  expect(keysOf(reckonedOfRevision(points, 'in-review', []))).toEqual(['odd:scatter:a', 'odd:scatter:b'])
  expect(reckonedOfRevision(points, 'approved', [])).toEqual([])
  expect(keysOf(reckonedOfRevision(points, 'approved', [{ pointKey: 'odd:scatter:b' }]))).toEqual(['odd:scatter:b'])
})
