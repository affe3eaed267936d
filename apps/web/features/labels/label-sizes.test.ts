import { expect, test } from 'vitest'
import { labelSizes, paperRule, readCount, sizeOf } from './label-sizes.ts'

test('the paper is exactly the label, without margins and without the foot of a page', () => {
  for (const size of labelSizes) {
    const rule = paperRule(size)
    expect(rule).toContain(`@page { size: ${size.width}mm ${size.height}mm; margin: 0 }`)
    expect(rule).toContain('.only-print { display: none')
  }
})

test('a size that nobody knows is the usual one', () => {
  expect(sizeOf('100x50')).toMatchObject({ width: 100, height: 50 })
  expect(sizeOf('')).toBe(labelSizes[0])
})

test('a count is a whole number from 1 to 200', () => {
  expect(['1', ' 34 ', '200'].map(readCount)).toEqual([1, 34, 200])
  expect(['', '0', '201', '1.5', '-2', 'x'].map(readCount)).toEqual([null, null, null, null, null, null])
})
