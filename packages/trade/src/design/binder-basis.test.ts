import fc from 'fast-check'
import { expect, test } from 'vitest'
import { decimal } from '../quantity/decimal.ts'
import { round } from '../quantity/rounding.ts'
import { binderOnBasis, moistureOfDryMass, moistureOfWetMass } from './binder-basis.ts'
import { residualBases, residualBinder } from './residual-binder.ts'

const hundredths = (from: number, to: number) =>
  fc.integer({ min: from * 100, max: to * 100 }).map((value) => (value / 100).toFixed(2))
const near = (a: string, b: string) => decimal(a).minus(b).abs().lte('1e-27')
const basis = fc.constantFrom(...residualBases)

test('7.51 % of dry aggregate is 7.44 % of aggregate and filler at 1 % of cement, and less of the mix', () => {
  const of = (to: (typeof residualBases)[number]) =>
    round(binderOnBasis('7.51', '% of dry aggregate', to, '1'), 3, 'half-even')
  expect(of('% of dry aggregate and filler')).toBe('7.436')
  // 7.51 ÷ (100 + 1 + 7.51)
  expect(of('% of total dry mix')).toBe('6.921')
  // Without filler, p ÷ (100 − p): 6 ÷ 94.
  expect(round(binderOnBasis('6', '% of total dry mix', '% of dry aggregate', '0'), 4, 'half-even')).toBe('6.3830')
})

test('there and back is the same content, and every way round gives it', () => {
  fc.assert(
    fc.property(hundredths(0, 60), basis, basis, basis, hundredths(0, 5), (value, from, by, to, filler) => {
      const there = binderOnBasis(value, from, to, filler)
      expect(near(binderOnBasis(there, to, from, filler), value)).toBe(true)
      expect(near(binderOnBasis(binderOnBasis(value, from, by, filler), by, to, filler), there)).toBe(true)
    }),
  )
})

test('it agrees with the masses of a batch on every basis', () => {
  fc.assert(
    fc.property(hundredths(1, 40), hundredths(0, 5), hundredths(50, 70), (emulsion, filler, residue) => {
      const { percent } = residualBinder({
        dryAggregateG: '800',
        fillerG: decimal(filler).times(8).toFixed(),
        emulsionG: decimal(emulsion).times(8).toFixed(),
        residuePercent: residue,
      })
      for (const from of residualBases)
        for (const to of residualBases)
          expect(near(binderOnBasis(percent[from], from, to, filler), percent[to])).toBe(true)
    }),
  )
})

test('with filler in it, a share of the mix is the smallest and a share of dry aggregate the largest', () => {
  fc.assert(
    fc.property(hundredths(1, 40), hundredths(1, 5), (value, filler) => {
      const of = (to: (typeof residualBases)[number]) =>
        Number(binderOnBasis(value, '% of dry aggregate and filler', to, filler))
      expect(of('% of total dry mix')).toBeLessThan(Number(value))
      expect(of('% of dry aggregate')).toBeGreaterThan(Number(value))
    }),
  )
})

test('7.80 % of wet mass is 8.46 % of dry mass, and back', () => {
  expect(round(moistureOfDryMass('7.80'), 2, 'half-even')).toBe('8.46')
  expect(round(moistureOfWetMass('8.46'), 2, 'half-even')).toBe('7.80')
  fc.assert(
    fc.property(hundredths(0, 60), (value) => {
      expect(near(moistureOfWetMass(moistureOfDryMass(value)), value)).toBe(true)
      expect(near(moistureOfDryMass(moistureOfWetMass(value)), value)).toBe(true)
    }),
  )
})

test('what no mix and no sample can have is refused', () => {
  const refused = (code: string) => expect.objectContaining({ code }) as Error
  expect(() => binderOnBasis('100', '% of total dry mix', '% of dry aggregate', '0')).toThrow(refused('inconsistent'))
  expect(() => binderOnBasis('-1', '% of dry aggregate', '% of total dry mix', '0')).toThrow(refused('inconsistent'))
  expect(() => binderOnBasis('6', '% of dry aggregate', '% of total dry mix', '-1')).toThrow(refused('not-positive'))
  expect(() => moistureOfDryMass('100')).toThrow(refused('inconsistent'))
  expect(() => moistureOfWetMass('-0.1')).toThrow(refused('inconsistent'))
})
