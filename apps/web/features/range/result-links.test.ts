import type { Curve } from '@curebook/contract/range'
import { expect, test } from 'vitest'
import { pointsByResult } from './result-links.ts'

test('a result in a calculation leads to its specimen, also where it does not count', () => {
  const point = (id: string) => ({ resultId: `r-${id}`, testId: `t-${id}`, label: id, code: id })
  const curves = [
    { points: [point('a')], excluded: [point('b')] },
    { points: [point('c')], excluded: [] },
  ] as unknown as Curve[]
  const points = pointsByResult(curves)
  expect(['r-a', 'r-b', 'r-c', 'r-x'].map((id) => points.get(id)?.testId)).toEqual(['t-a', 't-b', 't-c', undefined])
})
