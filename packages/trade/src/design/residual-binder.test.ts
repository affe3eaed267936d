import { expect, test } from 'vitest'
import { emulsionOfResidual, residualBinder, residualOfEmulsion } from './residual-binder.ts'

const twelve = { dryAggregateG: '800', fillerG: '8', emulsionG: '96', residuePercent: '62.6' }

test('the same binder is another number on each basis', () => {
  const { residualG, percent } = residualBinder(twelve)
  expect(residualG).toBe('60.096')
  expect(percent['% of dry aggregate']).toBe('7.512')
  expect(percent['% of dry aggregate and filler']).toMatch(/^7\.43762/)
  expect(percent['% of total dry mix']).toMatch(/^6\.92273/)
})

test('water that a diluted additive carries counts as water, not as dry mix', () => {
  const water = { addedWaterG: '80', aggregateWaterG: '24.8', additiveG: '16' }
  const dilute = residualBinder({ ...twelve, ...water, additiveWaterPercent: '75' })
  expect(dilute.water).toEqual({ added: '80', beforeEmulsion: '116.8', total: '152.704' })
  expect(residualBinder({ ...twelve, ...water }).water.beforeEmulsion).toBe('120.8')
  expect(residualBinder({ ...twelve, ...water }).percent).toEqual(residualBinder(twelve).percent)
  expect(Number(dilute.percent['% of total dry mix'])).toBeCloseTo((60.096 * 100) / (808 + 60.096 + 4), 12)
})

test('emulsion and residual binder convert by the residue, there and back', () => {
  expect(residualOfEmulsion('12', '62.6')).toBe('7.512')
  expect(emulsionOfResidual('7.512', '62.6')).toBe('12')
})

test('what cannot be is refused', () => {
  const inconsistent = expect.objectContaining({ code: 'inconsistent' })
  const notPositive = expect.objectContaining({ code: 'not-positive' })
  expect(() => residualBinder({ ...twelve, residuePercent: '100.1' })).toThrow(inconsistent)
  expect(() => residualBinder({ ...twelve, dryAggregateG: '0' })).toThrow(notPositive)
  expect(() => residualBinder({ ...twelve, emulsionG: '-1' })).toThrow(notPositive)
  expect(() => emulsionOfResidual('7.5', '0')).toThrow(inconsistent)
  expect(() => residualOfEmulsion('12', '-1')).toThrow(inconsistent)
})
