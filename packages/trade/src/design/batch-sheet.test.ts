import fc from 'fast-check'
import { expect, test } from 'vitest'
import { batchSheet, type BatchSheetInput, type BatchSheetOutcome } from './batch-sheet.ts'

const thirteen: BatchSheetInput = {
  dryAggregateG: '800',
  moisturePercent: '0',
  emulsionPercent: '13',
  fillerPercent: '1',
  waterPercent: '10',
  additivePercent: '0.2',
}

function targets(outcome: BatchSheetOutcome): Record<string, string> {
  if (!outcome.ok) throw new Error(outcome.refusal.sentence)
  return Object.fromEntries(outcome.sheet.rows.map(({ component, targetG }) => [component, targetG]))
}

test('components are shares of dry aggregate', () => {
  const dry = { aggregate: '800', filler: '8', water: '80', additive: '1.6', emulsion: '104' }
  expect(targets(batchSheet(thirteen))).toEqual(dry)
})

test('moist aggregate is weighed heavier, and its water taken off the added water', () => {
  expect(targets(batchSheet({ ...thirteen, moisturePercent: '3.4' }))).toEqual({
    aggregate: '827.2',
    filler: '8',
    water: '52.8',
    additive: '1.6',
    emulsion: '104',
  })
})

test('the water of a diluted additive counts as added water', () => {
  const sheet = batchSheet({ ...thirteen, additivePercent: '2', additiveWaterPercent: '75' })
  expect(targets(sheet)).toMatchObject({ additive: '16', water: '68' })
})

test('the sheet says which fraction is used and how much whole aggregate yields it', () => {
  const outcome = batchSheet({ ...thirteen, fractionUsed: 'passing 4.75 mm', scalpedPercent: '20' })
  expect(outcome).toMatchObject({
    sheet: { fractionUsed: 'passing 4.75 mm', scalpedPercent: '20', wholeAggregateG: '1000' },
  })
})

test('a batch that cannot be is refused with the reason', () => {
  const code = (change: Partial<BatchSheetInput>) => {
    const outcome = batchSheet({ ...thirteen, ...change })
    return outcome.ok ? 'computed' : outcome.refusal.code
  }
  expect(code({ moisturePercent: '10' })).toBe('computed')
  expect(code({ moisturePercent: '10.1' })).toBe('water-negative')
  expect(code({ additivePercent: '11', additiveWaterPercent: '100' })).toBe('water-negative')
  expect(code({ dryAggregateG: '0' })).toBe('not-positive')
  expect(code({ emulsionPercent: '-1' })).toBe('out-of-range')
  expect(code({ scalpedPercent: '100' })).toBe('out-of-range')
  expect(code({ additiveWaterPercent: '101' })).toBe('out-of-range')
  expect(code({ emulsionPercent: '12 %' })).toBe('not-a-number')
})

test('moisture moves water from the jug into the aggregate and changes nothing else', () => {
  const share = fc.integer({ min: 0, max: 1000 }).map((hundredths) => (hundredths / 100).toFixed(2))
  fc.assert(
    fc.property(share, fc.integer({ min: 1, max: 5000 }), (moisturePercent, dryAggregateG) => {
      const wet = targets(batchSheet({ ...thirteen, dryAggregateG: String(dryAggregateG), moisturePercent }))
      const dry = targets(batchSheet({ ...thirteen, dryAggregateG: String(dryAggregateG) }))
      expect(Number(wet.aggregate) + Number(wet.water)).toBeCloseTo(Number(dry.aggregate) + Number(dry.water), 9)
      expect({ ...wet, aggregate: '', water: '' }).toEqual({ ...dry, aggregate: '', water: '' })
    }),
  )
})
