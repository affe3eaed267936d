import type { DesignObservations } from '@curebook/contract/observations'
import type { Curve } from '@curebook/contract/range'
import { expect, test } from 'vitest'
import { sideBySide } from './side-by-side.ts'

const point = (label: string, emulsionPercent: string, y: string) => ({
  testId: label,
  label,
  code: label,
  emulsionPercent,
  y,
})

test('specimens lie by content, leanest first, void ones among their replicates, each with what was seen', () => {
  const curve = {
    points: [point('12-1', '12', '270'), point('9.5-2', '9.5', '700'), point('9.5-1', '9.5', '650')],
    excluded: [point('12-2', '12', '900')],
  } as unknown as Curve
  const seen = [{ id: 'a', specimenTestId: '12-2', choice: 'felt-torn' }] as unknown as DesignObservations['items']
  const columns = sideBySide(curve, seen)
  expect(columns.map(({ emulsionPercent }) => emulsionPercent)).toEqual(['9.5', '12'])
  expect(columns.map(({ specimens }) => specimens.map(({ label, y, counts }) => [label, y, counts]))).toEqual([
    [
      ['9.5-1', '650', true],
      ['9.5-2', '700', true],
    ],
    [
      ['12-1', '270', true],
      ['12-2', '900', false],
    ],
  ])
  expect(columns[1]!.specimens.map((one) => one.seen.length)).toEqual([0, 1])
})
