import fc from 'fast-check'
import { expect, test } from 'vitest'
import { batchSheet } from './batch-sheet.ts'

test('a batch on dry aggregate: C6, constructed', () => {
  const shares = { dryAggregate: '800', filler: '1', water: '10', additive: '0.2', emulsion: '13' }
  const dry = { aggregate: '800', filler: '8', water: '80', additive: '1.6', emulsion: '104' }
  expect(batchSheet({ ...shares, moisture: '0' })).toEqual(dry)
  expect(batchSheet({ ...shares, moisture: '3.4' })).toEqual({ ...dry, aggregate: '827.2', water: '52.8' })
})

test('an aggregate that brings more water than is wanted is refused', () => {
  const wet = { dryAggregate: '800', moisture: '12', filler: '1', water: '10', additive: '0', emulsion: '13' }
  expect(() => batchSheet(wet)).toThrow(expect.objectContaining({ code: 'inconsistent' }))
  expect(() => batchSheet({ ...wet, dryAggregate: '0' })).toThrow(expect.objectContaining({ code: 'not-positive' }))
  expect(() => batchSheet({ ...wet, moisture: '0', emulsion: '-1' })).toThrow(
    expect.objectContaining({ code: 'not-positive' }),
  )
})

test('moisture moves water from the jug to the aggregate and changes nothing else', () => {
  const share = fc.integer({ min: 0, max: 900 }).map((tenths) => (tenths / 100).toFixed(2))
  fc.assert(
    fc.property(share, fc.integer({ min: 100, max: 2000 }), (moisture, dryAggregate) => {
      const shares = { dryAggregate: String(dryAggregate), filler: '1', water: '10', additive: '0.2', emulsion: '13' }
      const moist = batchSheet({ ...shares, moisture })
      const dry = batchSheet({ ...shares, moisture: '0' })
      expect(Number(moist.aggregate) + Number(moist.water)).toBeCloseTo(Number(dry.aggregate) + Number(dry.water), 9)
      expect(moist.emulsion).toBe(dry.emulsion)
    }),
  )
})
