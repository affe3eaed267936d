import { median } from 'simple-statistics'
import { expect, test } from 'vitest'
import design from '../reference-cases/marrowdale-design.json' with { type: 'json' }
import { builtInMethods, methodByKey } from '../methods/catalogue.ts'
import { apartFromSeries } from './series-spread.ts'

const pair = methodByKey(builtInMethods, 'wet-track-abrasion-1h')!.pair!
const discs = design.rows
  .filter(({ form, soak }) => form === 'disc' && soak === '1-hour')
  .map(({ label, w1 }) => ({ id: label, before: w1 }))

test('of the discs of a made-up design the overfilled one stands apart, and it alone', () => {
  const found = apartFromSeries(pair, discs)
  expect(found.map(({ id }) => id)).toEqual(['12-3'])
  // The middle by another library.
  const middle = median(discs.map(({ before }) => Number(before)))
  expect(found[0]!.text).toContain(`the middle of its series (${middle} g)`)
  expect(found[0]!.text).toContain('805.0 g before')
  expect(found[0]!.text).toContain('heavier')
})

test('the share itself is still inside, and few weighings have no middle', () => {
  const series = ['100', '100', '100', '100', '105', '94.9'].map((before, index) => ({ id: String(index), before }))
  expect(apartFromSeries(pair, series).map(({ id }) => id)).toEqual(['5'])
  expect(apartFromSeries(pair, series.slice(2))).toEqual([])
})
